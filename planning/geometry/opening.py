"""The hole in the barrier: the stoma's edge moved outwards by the gap."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from shapely import Point as ShapelyPoint
from shapely import Polygon

from planning.geometry.outline import POINTS, Outline, Point
from planning.inputs.usable_numbers import check_numbers

#: Coordinates are kept to 0.01 mm: far below what scissors can do, and free of rounding noise.
_DECIMALS = 2
#: What rounding both coordinates of two opposite points may add to a diameter, mm.
_ROUNDING_MM = 0.02


@dataclass(frozen=True, slots=True)
class Opening:
    """``length_mm`` and ``width_mm`` as the stoma's, each with the gap on both sides."""

    gap_mm: float
    length_mm: float
    width_mm: float
    points: tuple[Point, ...]

    @property
    def across_mm(self) -> float:
        """Diameter of the smallest circle about the middle that holds the opening: the least
        flat plateau a convex barrier needs (common practice: never cut into the slope).

        A lopsided edge reaches further to one side than half its length or width.
        """
        reach = 2 * max(math.hypot(x, y) for x, y in self.points) - _ROUNDING_MM
        return max(self.length_mm, self.width_mm, reach)


def opening_for(outline: Outline, gap_mm: float, widest_mm: float | None = None) -> Opening:
    """Opening ``gap_mm`` beyond the edge on every side, wide enough for ``widest_mm`` to pass.

    The outline is the true offset; for an oval it is a trace wider than no ellipse, and its two
    axes are exactly ``axis + 2 * gap``.
    """
    check_numbers(gap_mm=gap_mm, widest_mm=widest_mm, low=0)
    length, width = outline.length_mm, outline.width_mm
    if widest_mm is not None:
        length, width = max(length, widest_mm), max(width, widest_mm)
    return Opening(
        gap_mm=gap_mm,
        length_mm=length + 2 * gap_mm,
        width_mm=width + 2 * gap_mm,
        points=_offset(outline.points, gap_mm, widest_mm),
    )


@lru_cache(maxsize=256)
def _offset(points: tuple[Point, ...], gap_mm: float, widest_mm: float | None) -> tuple[Point, ...]:
    shape = Polygon(points).buffer(gap_mm, quad_segs=4)
    if widest_mm is not None:
        round_part = ShapelyPoint(0, 0).buffer(widest_mm / 2 + gap_mm, quad_segs=POINTS // 4)
        shape = shape.union(round_part)
    return rounded(tuple(shape.exterior.coords[:-1]))


@lru_cache(maxsize=256)
def rounded(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """``points`` to 0.01 mm, without negative zeros."""
    check_numbers(points=points)
    return tuple((round(x, _DECIMALS) + 0.0, round(y, _DECIMALS) + 0.0) for x, y in points)
