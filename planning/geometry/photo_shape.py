"""The edge through marked points, and its sizes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from shapely import Polygon
from shapely.geometry import Point

from planning.geometry.photo_marks import CrossingOutline, FoldedOutline
from planning.geometry.photo_plane import Array
from planning.inputs.usable_numbers import check_numbers

_CORNERS: Final = 240
_HOURS: Final = np.radians(30.0 * np.arange(1, 13))
_RAYS: Final[Array] = np.column_stack([np.sin(_HOURS), np.cos(_HOURS)])


def smooth(points: Array) -> Array:
    """A closed smooth edge through ``points`` in their order (Catmull-Rom), as a polygon.

    Straight lines between points would cut every bend short.
    """
    check_numbers(points=points)
    steps = max(4, -(-_CORNERS // len(points)))
    t = (np.arange(steps) / steps)[None, :, None]
    p0, p1 = np.roll(points, 1, axis=0)[:, None], points[:, None]
    p2, p3 = np.roll(points, -1, axis=0)[:, None], np.roll(points, -2, axis=0)[:, None]
    curve: Array = 0.5 * (
        2 * p1
        + (p2 - p0) * t
        + (2 * p0 - 5 * p1 + 4 * p2 - p3) * t**2
        + (3 * p1 - p0 - 3 * p2 + p3) * t**3
    )
    return curve.reshape(-1, 2)


def check_edge(edge: Array) -> None:
    """Raises ``CrossingOutline`` or ``FoldedOutline``."""
    check_numbers(edge=edge)
    polygon = Polygon(edge)
    if not polygon.is_valid:
        raise CrossingOutline
    if not polygon.contains(Point(middle_of(edge))):
        raise FoldedOutline


def middle_of(edge: Array) -> Array:
    """The middle of the enclosed area."""
    check_numbers(edge=edge)
    # Near the origin first: figures far from it would cancel out.
    base = edge.mean(axis=0)
    here = edge - base
    there = np.roll(here, -1, axis=0)
    doubled = here[:, 0] * there[:, 1] - there[:, 0] * here[:, 1]
    middle: Array = base + ((here + there) * doubled[:, None]).sum(axis=0) / (3 * doubled.sum())
    return middle


@dataclass(frozen=True)
class Sizes:
    """mm and mm². Length: the longest way across; width: the extent at right angles to it.

    ``bearing``: which way the length runs, degrees clockwise of 12 o'clock, 0 to below 180.
    ``radii``: from the middle of the area to the edge at 1 to 12 o'clock, the farthest where the
    edge is met more than once.
    """

    length: float
    width: float
    area: float
    bearing: float
    radii: tuple[float, ...]

    @property
    def vector(self) -> Array:
        """Length, width, area, length less width, then the twelve radii."""
        return np.array([self.length, self.width, self.area, self.length - self.width, *self.radii])


#: Half a degree apart: a longest way between two of them is short by less than a 1e-5th.
_BEARINGS: Final = np.radians(0.5 * np.arange(360))
_WAYS: Final[Array] = np.array([np.sin(_BEARINGS), np.cos(_BEARINGS)])


def sizes_of(edge: Array) -> Sizes:
    """Of an edge in mm, y towards the head."""
    check_numbers(edge=edge)
    along = edge @ _WAYS
    extents = along.max(axis=0) - along.min(axis=0)
    longest = int(extents.argmax())
    here, there = edge, np.roll(edge, -1, axis=0)
    doubled = here[:, 0] * there[:, 1] - there[:, 0] * here[:, 1]
    return Sizes(
        length=float(extents[longest]),
        width=float(extents[(longest + 180) % 360]),
        area=abs(float(doubled.sum())) / 2,
        bearing=longest * 0.5,
        radii=_radii(edge - middle_of(edge)),
    )


def _radii(edge: Array) -> tuple[float, ...]:
    """Where twelve rays from the origin leave the edge, each at its farthest."""
    p, q = edge[:, None], np.roll(edge, -1, axis=0)[:, None]
    side_p = _RAYS[:, 0] * p[..., 1] - _RAYS[:, 1] * p[..., 0]
    side_q = np.roll(side_p, -1, axis=0)
    beyond = side_p > 0
    met = beyond != np.roll(beyond, -1, axis=0)
    share = side_p / np.where(met, side_p - side_q, 1.0)
    along_p = p[..., 0] * _RAYS[:, 0] + p[..., 1] * _RAYS[:, 1]
    along_q = q[..., 0] * _RAYS[:, 0] + q[..., 1] * _RAYS[:, 1]
    out = np.where(met, along_p + (along_q - along_p) * share, 0.0)
    return tuple(float(r) for r in out.max(axis=0))
