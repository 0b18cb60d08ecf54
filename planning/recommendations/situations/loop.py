"""A loop: the opening that works counts, not the tallest point."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import PRACTICE
from planning.inputs.findings import Construction
from planning.recommendations.situations.rule import Situation
from planning.supplies.system_choice import SystemChoice

_TWO_ENDS: Final = (Construction.LOOP, Construction.DOUBLE_BARREL)


def _works_low(chosen: SystemChoice) -> bool:
    loop = chosen.situation.facts.findings.measurement.loop
    if chosen.kept or loop is None or loop.working_mm is None or loop.resting_mm is None:
        return False
    return loop.working_mm < loop.resting_mm


def _low_words(chosen: SystemChoice) -> str:
    loop = chosen.situation.facts.findings.measurement.loop
    if loop is None or loop.working_mm is None:
        return ""
    hour = "" if loop.working_hour is None else f" at {loop.working_hour} o'clock"
    return (
        f"Which limb works is on record: the working opening{hour} is {loop.working_mm:g} mm high, "
        "and that height counts, not the tallest point; build up on that side"
    )


def _not_recorded(chosen: SystemChoice) -> bool:
    facts = chosen.situation.facts
    two = facts.findings.stoma.construction in _TWO_ENDS
    return two and facts.findings.measurement.loop is None and facts.troubled


ROWS: Final = (
    Situation(
        "loop_works_low",
        "Built up where the working opening is low",
        "the working opening of a loop is lower than the resting one and the system is not simply "
        "kept",
        _works_low,
        _low_words,
        "The opening that works is the lower one.",
        (PRACTICE,),
        at="measurement.loop",
    ),
    Situation(
        "loop_which_works",
        "Which opening of a loop works",
        "a loop or double-barrel stoma leaks and which opening works is not recorded",
        _not_recorded,
        "Record which opening works, and the heights of both",
        "A loop has two openings, and only one works.",
        (PRACTICE,),
        at="measurement.loop",
    ),
)
