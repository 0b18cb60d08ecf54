"""The step that a bulge beside the stoma leaves on the other, low side.

The barrier is taken as a plane lying on the top of the bulge, half its width beyond the stoma's
edge, and on the skin at the barrier's far rim. Under it, at the low edge of the stoma, stays a
gap: that is what half rings and paste must fill (design value: a drawing aid, not a measurement).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from planning.evidence.thresholds import BARRIER_ACROSS, HALF_RINGS, RING_THICKNESS
from planning.inputs.usable_numbers import check_numbers

_NEGLIGIBLE_MM = 0.05


@dataclass(frozen=True, slots=True)
class Levelling:
    """``gap_mm`` to fill on the low side, ``layers`` of half ring, ``paste_mm`` for the rest.

    ``too_high``: more than half rings can level; a system for outward curves or a surgeon's
    opinion is needed.
    """

    gap_mm: float
    layers: int
    paste_mm: float
    too_high: bool


def low_side_gap(height_mm: float, width_mm: float, radius_mm: float) -> float:
    """Gap (mm) under the barrier at the edge of a stoma of ``radius_mm``, opposite a bulge."""
    check_numbers(height_mm=height_mm, width_mm=width_mm, radius_mm=radius_mm, low=0)
    reach = BARRIER_ACROSS.value / 2
    top = radius_mm + width_mm / 2
    return max(0.0, height_mm * (reach - radius_mm) / (reach + top))


def level(gap_mm: float) -> Levelling:
    """Whole half rings first (at least one), paste for what is left of the step."""
    check_numbers(gap_mm=gap_mm, low=0)
    wanted = max(1, math.floor((gap_mm + _NEGLIGIBLE_MM) / RING_THICKNESS.value))
    layers = min(wanted, int(HALF_RINGS.value))
    rest = max(0.0, gap_mm - layers * RING_THICKNESS.value)
    too_high = wanted > layers
    return Levelling(gap_mm, layers, 0.0 if rest < _NEGLIGIBLE_MM else rest, too_high)
