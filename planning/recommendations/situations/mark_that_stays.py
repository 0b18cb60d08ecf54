"""A red mark that stays: what comes next if one step less is not enough."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN
from planning.evidence.thresholds import PRESSURE_CHECK
from planning.recommendations.situations.rule import Situation
from planning.supplies.catalogue import CONVEX, SUPPLIES
from planning.supplies.step_down import one_step_less
from planning.supplies.system_choice import SystemChoice


def _eased(chosen: SystemChoice) -> bool:
    less = bool(chosen.corrections) and bool(chosen.situation.facts.lasting_marks)
    return less and _next(chosen) is not None


def _next(chosen: SystemChoice) -> str | None:
    """The barrier of the next step; None where none is known or none presses less."""
    barrier = chosen.barrier
    return None if barrier is None else one_step_less(barrier)


def _words(chosen: SystemChoice) -> str:
    following = _next(chosen)
    name = "" if following is None else SUPPLIES[following].name
    return (
        f"Look within {PRESSURE_CHECK.value:g} days: if the mark is still red then, the next step "
        f"down is a {name}, and no more than that"
    )


ROWS: Final = (
    Situation(
        "next_step_down",
        "What comes next if the mark is red again",
        "a red mark stays, one step of pressure is taken off and another is left",
        _eased,
        _words,
        "A red mark stays after the pressure is off.",
        (DESIGN,),
        at="skin",
        names=tuple(sorted(CONVEX)),
    ),
)
