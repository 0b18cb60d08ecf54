"""How far a barrier of 4 by 4 inches reaches from the edge of the stoma, and where a belt runs."""

from __future__ import annotations

from typing import Final

from planning.evidence.thresholds import BARRIER_ACROSS, FISTULA_CLEAR
from planning.geometry.outline import Outline
from planning.inputs.clock import ClockHours
from planning.inputs.usable_numbers import check_numbers

#: A belt pulls at 3 and 9 o'clock; it counts as lying an hour to either side too (design value).
BELT_LINE: Final = ClockHours.of(2, 3, 4, 8, 9, 10)


def barrier_reach(outline: Outline | None) -> float:
    """From the stoma's edge to the barrier's outline, mm, on the side where it reaches furthest.

    The size of the barrier in use is not recorded: 4 by 4 inches, taken as round, are used instead.
    Without the size of the stoma the reach is counted from its middle, so never too short.
    """
    narrowest = 0.0 if outline is None else min(outline.radii)
    return BARRIER_ACROSS.value / 2 - narrowest


def fistula_near(start_mm: float | None, outline: Outline | None) -> bool:
    """A fistula that begins ``start_mm`` from the stoma lies under that barrier or within 10 mm of
    it. None: its distance is not recorded, and it counts as near."""
    check_numbers(start_mm=start_mm, low=0)
    return start_mm is None or start_mm <= barrier_reach(outline) + FISTULA_CLEAR.value
