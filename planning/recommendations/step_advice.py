"""What goes with restraint: the step that is no supply, what to watch, what is not the barrier's
doing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.inputs.findings import SkinKind, Symptom
from planning.results.message import Words, to_patient
from planning.results.plan import Change, ItemKind, Reason, Recommendation
from planning.supplies.system_choice import SystemChoice

_LADDER: Final = Reason("The steps before it were tried or may not be used.", (PRACTICE, DESIGN))


def step_advice(chosen: SystemChoice) -> Iterator[Recommendation]:
    """For these findings and this choice."""
    yield from _step(chosen)
    yield from _watch(chosen)
    yield from _not_the_barrier(chosen)
    yield from _thick_stool(chosen)
    yield from _tear(chosen)


def _step(chosen: SystemChoice) -> Iterator[Recommendation]:
    if chosen.step is None or chosen.step.key == "garment":
        return
    asks = chosen.step.key == "surgeon"
    yield _tip(
        f"step_{chosen.step.key}",
        f"Next on the ladder: {chosen.step.text[:1].lower()}{chosen.step.text[1:]}",
        None,
        _LADDER,
        ItemKind.REFER if asks else ItemKind.TEACH,
    )


def _watch(chosen: SystemChoice) -> Iterator[Recommendation]:
    facts = chosen.situation.facts
    if chosen.waits:
        yield _tip(
            "on_trial",
            "Go on as it is: the last change is judged after 5 barriers or 14 days, and not before "
            "3 barriers",
            "Go on with what you use now. It is too early to judge it.",
            Reason("The last change was worn too short to be judged.", (DESIGN,), "wear"),
        )
    if facts.occasional or (facts.wear is not None and facts.wear.excused):
        yield _tip(
            "log_next_ten",
            "Log the next ten barriers, with what else was the matter when one leaks",
            "Write down the next ten changes, and what happened when one leaks.",
            Reason(
                "A single leak, or one with a reason of its own, says little.", (DESIGN,), "wear"
            ),
        )


def _not_the_barrier(chosen: SystemChoice) -> Iterator[Recommendation]:
    facts = chosen.situation.facts
    system = facts.findings.system
    if system is None:
        return
    melted = system.erosion and system.leak is not None and not system.leak
    # Never beside a day that is set, which may ask for another.
    if melted and not facts.occasional and chosen.wear.limit is None:
        yield _tip(
            "change_sooner",
            "The barrier melted and let nothing under yet: change a day sooner, before it lets go",
            "Change it one day sooner than you do now.",
            Reason("The used barrier has melted.", (PRACTICE,), "system.erosion"),
            ItemKind.WEAR,
        )
    if system.load:
        yield _tip(
            "move_load",
            "Move what lies across the barrier (clothes, a strap, a load) before any product is "
            "changed; leaks under it do not count against the system",
            "Keep tight clothes and straps off the barrier.",
            Reason(
                f"A load lies across it{system.load.placed()}.", (PRACTICE, DESIGN), "system.load"
            ),
        )
    if system.placed_towards is not None:
        first = "" if chosen.started("pre_cut") else ", before any product is changed"
        yield _tip(
            "place_centred",
            f"Show how to put it on centred over the stoma, by sight or touch{first}",
            "Put the hole right over the middle of your stoma.",
            Reason(
                f"It was put on towards {system.placed_towards} o'clock.",
                (PRACTICE,),
                "system.placed_towards",
            ),
        )


def _thick_stool(chosen: SystemChoice) -> Iterator[Recommendation]:
    if not chosen.situation.facts.feels(Symptom.THICK_STICKING_STOOL):
        return
    yield _tip(
        "softer_stool",
        "Softer stool: drink and fibre unless limited; loose clothes at the waist; ask which "
        "medicines harden stool (iron, opioids) and name them to the prescriber",
        "Drink extra, unless your drinks are limited. Wear loose clothes at the waist.",
        Reason("Thick stool lies on the stoma and lifts the seal.", (PRACTICE,), "output.present"),
    )


def _tear(chosen: SystemChoice) -> Iterator[Recommendation]:
    seen = chosen.situation.facts.find(SkinKind.STRIPPING)
    if not seen:
        return
    yield _tip(
        "cover_tear",
        "Cover the torn skin with a thin, non-stick dressing under the barrier; no powder, no film "
        "on it; count what is left of the flap",
        "Put the thin dressing on the torn skin before the barrier.",
        Reason("Torn skin heals under a cover.", (PRACTICE, DESIGN), seen[0].path),
    )


def _tip(
    key: str,
    text: str,
    patient_text: Words | None,
    because: Reason,
    kind: ItemKind = ItemKind.TEACH,
) -> Recommendation:
    return Recommendation(key, kind, Change.START, text, (because,), (), to_patient(patient_text))
