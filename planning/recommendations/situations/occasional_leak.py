"""A leak with a reason of its own: the reason is named."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from planning.evidence.sources import PRACTICE
from planning.facts.wear_summary import FAILED
from planning.inputs.findings import Circumstance
from planning.recommendations.situations.rule import Situation
from planning.supplies.system_choice import SystemChoice

_WORDS: Final[Mapping[Circumstance, str]] = {
    Circumstance.OVERFULL: "an overfull pouch",
    Circumstance.SOAKED: "a soaking",
    Circumstance.PASSING_ILLNESS: "a short illness",
    Circumstance.OTHER_SYSTEM: "another system",
    Circumstance.PULLED_OFF: "it was pulled off",
    Circumstance.LOAD_ACROSS: "a load across the barrier",
}


def _reasons(chosen: SystemChoice) -> tuple[str, ...]:
    worn = chosen.situation.facts.findings.wear or ()
    found = (e.circumstance for e in worn if e.reason in FAILED)
    return tuple(dict.fromkeys(_WORDS[one] for one in found if one is not None))


def _overfull(chosen: SystemChoice) -> bool:
    empties = "closed" not in chosen.supplies
    return empties and _WORDS[Circumstance.OVERFULL] in _reasons(chosen)


def _excused(chosen: SystemChoice) -> bool:
    return bool(_reasons(chosen))


def _words(chosen: SystemChoice) -> str:
    return f"Likely reason, as recorded: {', '.join(_reasons(chosen))}; not the barrier's doing"


ROWS: Final = (
    Situation(
        "leak_reason",
        "The likely reason of a leak",
        "a barrier leaked or fell off and what else was the matter is recorded",
        _excused,
        _words,
        "The log holds a leak with a reason of its own.",
        (PRACTICE,),
        at="wear",
    ),
    Situation(
        "empty_sooner",
        "Empty in time",
        "a barrier leaked or fell off under an overfull pouch that is emptied",
        _overfull,
        "Empty at one third to half full, and before lying down; ask about the nights",
        "The log holds a leak under an overfull pouch.",
        (PRACTICE,),
        "Empty the pouch when it is one third to half full, and before you lie down.",
        "wear",
    ),
)
