"""The stoma's edge at skin level, from two axes or twelve radii.

Coordinates: origin in the stoma's middle, x towards the patient's left (3 o'clock), y towards
the head (12 o'clock), mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Final

from planning.inputs.clock import SECTOR_DEGREES
from planning.inputs.findings import Measurement
from planning.inputs.usable_numbers import check_numbers

Point = tuple[float, float]

#: Points drawn for each hour: the polygon then holds 99.95 % of a circle's area.
PER_HOUR: Final = 10
POINTS: Final = 12 * PER_HOUR


@dataclass(frozen=True)
class Outline:
    """A closed edge as distance from the middle at ``POINTS`` even bearings from 12 o'clock.

    ``length_mm`` is the longest line through the middle, ``width_mm`` the one across it.
    """

    radii: tuple[float, ...]
    length_mm: float
    width_mm: float
    traced: bool

    @cached_property
    def points(self) -> tuple[Point, ...]:
        """Corner points clockwise from 12 o'clock."""
        return tuple(_point(r, i) for i, r in enumerate(self.radii))

    @cached_property
    def area_mm2(self) -> float:
        """Exact for an ellipse; the polygon's area for a traced edge."""
        if not self.traced:
            return math.pi * self.length_mm * self.width_mm / 4
        return polygon_area(self.points)

    @cached_property
    def perimeter_mm(self) -> float:
        """Ramanujan's second formula for an ellipse; the polygon's for a traced edge."""
        if not self.traced:
            return ellipse_perimeter(self.length_mm / 2, self.width_mm / 2)
        return polygon_perimeter(self.points)

    @property
    def ratio(self) -> float:
        """Longest over crosswise, 1 for a circle."""
        return self.length_mm / self.width_mm

    def radius_at(self, hour: int) -> float:
        """Middle to edge at ``hour``, mm."""
        check_numbers(hour=hour, low=0, high=12)
        return self.radii[(hour % 12) * PER_HOUR]

    @cached_property
    def across_mm(self) -> float:
        """Diameter of the smallest centred circle that holds the whole edge."""
        return 2 * max(self.radii)


def outline_of(measurement: Measurement) -> Outline | None:
    """The edge, or None where size was not recorded. Twelve radii go before two axes."""
    if measurement.radii_mm is not None:
        return traced(measurement.radii_mm)
    if measurement.length_mm is None or measurement.width_mm is None:
        return None
    turned = 0.0 if measurement.axis_hour is None else measurement.axis_hour * SECTOR_DEGREES
    return ellipse(measurement.length_mm, measurement.width_mm, turned)


@lru_cache(maxsize=256)
def ellipse(length_mm: float, width_mm: float, turned_degrees: float = 0.0) -> Outline:
    """An ellipse whose length axis lies ``turned_degrees`` clockwise of 12-6."""
    check_numbers(length_mm=length_mm, width_mm=width_mm, above=0)
    check_numbers(turned_degrees=turned_degrees)
    a, b = length_mm / 2, width_mm / 2
    radii = []
    for i in range(POINTS):
        t = math.radians(360.0 * i / POINTS - turned_degrees)
        radii.append(a * b / math.hypot(b * math.cos(t), a * math.sin(t)))
    longest, across = max(length_mm, width_mm), min(length_mm, width_mm)
    return Outline(tuple(radii), longest, across, traced=False)


def traced(hour_radii: tuple[float, ...]) -> Outline:
    """A smooth closed edge through twelve radii, given for 1 o'clock to 12 o'clock.

    Between two hours the distance follows a cubic through its neighbours (Catmull-Rom), so that
    twelve equal radii give a circle and no reading changes the edge beyond its neighbours.
    """
    check_numbers(hour_radii=hour_radii, above=0)
    r = (hour_radii[11], *hour_radii[:11])
    radii = []
    for k in range(12):
        before, here, after, beyond = r[k - 1], r[k], r[(k + 1) % 12], r[(k + 2) % 12]
        low, high = min(here, after), max(here, after)
        for j in range(PER_HOUR):
            value = _cubic(before, here, after, beyond, j / PER_HOUR)
            radii.append(min(max(value, 0.9 * low), 1.1 * high))
    half = POINTS // 2
    chords = [one + other for one, other in zip(radii[:half], radii[half:], strict=True)]
    longest = max(chords)
    at = chords.index(longest)
    return Outline(tuple(radii), longest, chords[at - half // 2], traced=True)


def _cubic(p0: float, p1: float, p2: float, p3: float, t: float) -> float:
    return 0.5 * (
        2 * p1
        + (p2 - p0) * t
        + (2 * p0 - 5 * p1 + 4 * p2 - p3) * t * t
        + (3 * p1 - p0 - 3 * p2 + p3) * t * t * t
    )


def _point(radius: float, index: int) -> Point:
    bearing = math.radians(360.0 * index / POINTS)
    return radius * math.sin(bearing), radius * math.cos(bearing)


def ellipse_perimeter(a: float, b: float) -> float:
    """Ramanujan's second approximation, semi-axes ``a`` and ``b``; relative error below 1e-6
    for the shapes of a stoma."""
    check_numbers(a=a, b=b, above=0)
    h = ((a - b) / (a + b)) ** 2
    return math.pi * (a + b) * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))


def polygon_area(points: tuple[Point, ...]) -> float:
    """Area of a simple polygon (shoelace formula)."""
    check_numbers(points=points)
    pairs = zip(points, points[1:] + points[:1], strict=True)
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairs)) / 2


def polygon_perimeter(points: tuple[Point, ...]) -> float:
    """Length round a polygon."""
    check_numbers(points=points)
    return sum(math.dist(p, q) for p, q in zip(points, points[1:] + points[:1], strict=True))
