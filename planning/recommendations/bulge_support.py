"""What to say about a bulge: a fitted garment where nothing forbids it, and how to spare it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from planning.evidence.sources import PRACTICE
from planning.inputs.findings import Condition, Material
from planning.ranked_facts import RankedFacts
from planning.results.message import to_patient
from planning.results.plan import Change, ItemKind, Reason, Recommendation
from planning.supplies.catalogue import SUPPLIES
from planning.supplies.hazards import in_force
from planning.supplies.system_choice import SystemChoice
from planning.supplies.trials import hurt

_BULGE: Final = Reason("A bulge lies beside the stoma.", (PRACTICE,), "abdomen.bulges")
_COUGH: Final = replace(_BULGE, sources=("nswocc/cough", PRACTICE))
#: A garment presses on the skin that a belt would press on; only the bulge bars a belt and calls
#: for a garment (design value).
_BARS: Final = frozenset(
    {*SUPPLIES["belt"].hazards, *SUPPLIES["support_garment"].hazards} - {"bulge_belt"}
)
#: What passes once the skin has healed.
_HEALS: Final = frozenset({"pressure_injury_belt", "raw_belt_line"})


def support_advice(chosen: SystemChoice) -> Iterator[Recommendation]:
    """For a bulge beside the stoma: the garment only when its step has come."""
    situation = chosen.situation
    if not situation.facts.bulging:
        return
    turn = chosen.step is not None and chosen.step.key == "garment"
    if turn and _may_be_offered(situation):
        yield _garment(latex=situation.keeps_off(Material.LATEX))
    yield Recommendation(
        key="support_cough",
        kind=ItemKind.TEACH,
        change=Change.START,
        text="Support the abdomen when coughing or lifting",
        because=(_COUGH,),
        patient_text=to_patient("Hold your belly when you cough or lift."),
    )


def _may_be_offered(situation: RankedFacts) -> bool:
    barred = _BARS & set(in_force(situation))
    return not barred and not _refused(situation)


def may_follow(situation: RankedFacts) -> bool:
    """Later, once pressed skin has healed: nothing else forbids a garment."""
    barred = (_BARS - _HEALS) & set(in_force(situation))
    return not barred and not _refused(situation)


def _refused(situation: RankedFacts) -> bool:
    """It hurt before, or in pregnancy the obstetric team has not agreed."""
    facts = situation.facts
    return "support_garment" in hurt(facts.history) or facts.has(Condition.PREGNANT) is True


def _garment(*, latex: bool) -> Recommendation:
    if latex:
        what = "latex-free support garment"
        plain = "Ask us about a latex-free support belt for the bulge. It is made to measure."
    else:
        what = "support garment"
        plain = "Ask us about a support belt for the bulge. It is made to measure."
    return Recommendation(
        key="support_fitting",
        kind=ItemKind.SUPPORT,
        change=Change.START,
        text=f"Offer a {what}: measured by a trained fitter, put on lying, off at night",
        because=(_BULGE,),
        patient_text=to_patient(plain),
    )
