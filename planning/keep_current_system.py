"""The well-fitting system of a well person: change nothing.

An opening wider than usual stays where the skin it leaves bare is known to be sound, and the plan
says so. What every stoma of its kind must have (a night bag for urine) and is recorded as lacking
ends the good fit: then it is started, and the rest is kept.
"""

from __future__ import annotations

from dataclasses import replace

from planning.coding.diagnoses import suggested_codes
from planning.evidence.rule_set import RULE_SET
from planning.evidence.sources import PRACTICE
from planning.facts.change_interval import expected_wear
from planning.facts.missing import missing
from planning.instructions.dimension import fitting_gap, stoma_size
from planning.instructions.quantities import quantities
from planning.notices import notices, over_maximum
from planning.ranked_facts import RankedFacts
from planning.recommendations import supply_words
from planning.recommendations.situations import situation_advice
from planning.recommendations.step_advice import step_advice
from planning.restraint.answers import fit_of, well_of
from planning.results.message import Message, to_patient
from planning.results.plan import (
    Change,
    Dimensions,
    FitAnswer,
    ItemKind,
    Plan,
    Reason,
    Recommendation,
    Stage,
)
from planning.safety.call_when import call_when
from planning.safety.follow_up import leave_alone_follow_up
from planning.safety.remarks import remarks
from planning.safety.unsettled import unsettled
from planning.supplies.catalogue import SUPPLIES, Slot
from planning.supplies.system_choice import SystemChoice
from planning.supplies.worn import ACCESSORIES
from planning.technique import technique

_WORKS = Reason(
    "The used barrier came off intact, the skin is sound and nothing leaks.",
    (PRACTICE,),
    "system.leak",
)


def fits_well(situation: RankedFacts, chosen: SystemChoice) -> bool:
    """No red flag, nothing unusual about person or stoma, sound skin, a barrier read and intact,
    nothing worn that is hazardous, and nothing recorded as lacking."""
    facts = situation.facts
    gap = facts.worn_gap
    cuts = gap is not None and gap.least_mm < 0
    return (
        facts.works is True
        and not situation.flags
        and not unsettled(facts)
        and not cuts
        and chosen.worn.keys <= chosen.supplies | _alternatives(chosen)
        and not set(chosen.barred) & chosen.worn.others
        and not _lacking(chosen)
        and not chosen.corrections | chosen.today
    )


def _lacking(chosen: SystemChoice) -> frozenset[str]:
    """Accessories chosen for a need, while the record says which are worn and these are not."""
    system = chosen.situation.facts.findings.system
    if system is None or system.accessories is None:
        return frozenset()
    return (chosen.supplies - chosen.worn.keys) & ACCESSORIES


def _alternatives(chosen: SystemChoice) -> frozenset[str]:
    """Barriers that the record cannot tell apart count as the one chosen among them."""
    return chosen.worn.possible if chosen.worn.possible & chosen.supplies else frozenset()


def kept_plan(situation: RankedFacts, chosen: SystemChoice) -> Plan:
    """Keep everything; routine follow-up."""
    again = leave_alone_follow_up(situation)
    presses = chosen.convex or "belt" in chosen.supplies
    kept = tuple(key for key in chosen.keys if key in chosen.worn.keys)
    sizes = _sizes(situation, chosen)
    best = chosen.best.of(frozenset(kept))
    chosen = replace(chosen, best=best, needs=(), sizes=sizes, kept=True)
    amounts = quantities(chosen, again.in_days)
    return Plan(
        rule_set=RULE_SET,
        urgency=situation.urgency,
        headline=chosen_words(chosen),
        leave_alone=True,
        red_flags=(),
        causes=situation.causes,
        needs=(),
        recommendations=(*_kept(kept), *step_advice(chosen), *situation_advice(chosen)),
        runner_up=None,
        dimensions=sizes,
        steps=technique(chosen),
        quantities=amounts,
        follow_up=again,
        call_when=call_when(situation, presses=presses),
        notices=(*remarks(situation.facts), *notices(situation), *over_maximum(amounts)),
        missing=missing(situation.facts),
        supplies=kept,
        expected_wear=expected_wear(chosen.wear, situation.facts),
        suggested_codes=suggested_codes(situation),
        well=well_of(situation),
        fit=fit_of(chosen),
    )


def chosen_words(chosen: SystemChoice) -> str:
    """The headline of a plan that changes nothing; said only where nothing is open either."""
    fit = fit_of(chosen)
    return "A good fit: change nothing" if fit.answer is FitAnswer.FITS else fit.text


def _sizes(situation: RankedFacts, chosen: SystemChoice) -> Dimensions:
    """With the opening only where the one in use is known to be usual: none other is proposed."""
    known = fitting_gap(situation.facts) is not None
    return chosen.sizes if known else stoma_size(situation.facts)


def _kept(keys: tuple[str, ...]) -> tuple[Recommendation, ...]:
    found = [_keep(key) for key in keys]
    if not any(item.key == "opening" for item in found):
        found.append(_opening_of_unknown_kind())
    return tuple(found)


def _keep(key: str) -> Recommendation:
    supply = SUPPLIES[key]
    opening = supply.slot is Slot.OPENING
    return Recommendation(
        key="opening" if opening else key,
        kind=supply.kind,
        change=Change.KEEP,
        stage=Stage.KEEP,
        text=f"Keep: {supply.name}" + (", as it is" if opening else ""),
        because=(_WORKS,),
        patient_text=to_patient(
            Message.of("Keep using: {supply}.", supply=supply_words.patient(key))
        ),
    )


def _opening_of_unknown_kind() -> Recommendation:
    return Recommendation(
        key="opening",
        kind=ItemKind.OPENING,
        change=Change.KEEP,
        stage=Stage.KEEP,
        text="Keep: the opening as it is",
        because=(_WORKS,),
        patient_text=to_patient("Keep the hole as it is."),
    )
