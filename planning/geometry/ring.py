"""A mouldable ring stretched to the stoma. Its volume and its radial width stay the same.

The volume model is a design value; the ring's usual sizes are common practice without a source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from planning.evidence.thresholds import RING_INNER, RING_OUTER, RING_STRETCH, RING_THICKNESS
from planning.geometry.outline import Outline
from planning.inputs.usable_numbers import check_numbers


@dataclass(frozen=True, slots=True)
class FittedRing:
    """``inner_mm`` the hole as worn (diameter of equal length round), ``thickness_mm`` left.

    ``cut_and_overlap``: too far to stretch, or too wide a hole: it is cut open and closed round
    the stoma with overlapping ends instead. ``pieces``: rings needed for one change.
    """

    inner_mm: float
    outer_mm: float
    thickness_mm: float
    cut_and_overlap: bool
    pieces: int


def stretched_thickness(
    inner_mm: float,
    *,
    hole_mm: float = RING_INNER.value,
    outer_mm: float = RING_OUTER.value,
    thickness_mm: float = RING_THICKNESS.value,
) -> float:
    """Thickness (mm) once the hole is ``inner_mm``: t (OD2 - ID2) / (OD'2 - ID'2)."""
    check_numbers(inner_mm=inner_mm, low=0)
    check_numbers(hole_mm=hole_mm, outer_mm=outer_mm, thickness_mm=thickness_mm, above=0)
    width = (outer_mm - hole_mm) / 2
    new_outer = inner_mm + 2 * width
    return thickness_mm * (outer_mm**2 - hole_mm**2) / (new_outer**2 - inner_mm**2)


def fit_ring(outline: Outline, passing_mm: float | None = None) -> FittedRing:
    """The ring touching the edge all round: its hole is as long round as the stoma.

    Where the stoma is wider above (``passing_mm``) than the hole can be stretched, the ring is
    cut and closed round the base.
    """
    check_numbers(passing_mm=passing_mm, low=0)
    inner = outline.perimeter_mm / math.pi
    width = (RING_OUTER.value - RING_INNER.value) / 2
    most = RING_INNER.value * RING_STRETCH.value
    cut = max(inner, passing_mm or 0.0) > most or inner < RING_INNER.value
    thickness = RING_THICKNESS.value if cut else stretched_thickness(inner)
    return FittedRing(inner, inner + 2 * width, thickness, cut, 2 if inner > most else 1)
