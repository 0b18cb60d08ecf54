"""Where things lie on the drawn clock face. Units: drawing units unless a name says mm.

The same few functions are in ``static/js/face-geometry.js``; a browser test holds the two
together, path by path.
"""

from math import cos, floor, hypot, radians, sin

from clinic.visits.choices import LumenPosition
from planning.inputs.clock import ClockHours

#: Half the drawing's side; the face is centred on 0, 0 with y downwards, as SVG has it.
HALF = 216
#: The stoma is drawn at one size whatever it measures: the face is a map, not a template.
STOMA_RADIUS = 58
#: The lumen is drawn this large.
LUMEN_RADIUS = 8
#: Drawing units a millimetre of skin.
PER_MM = 2.3
#: The skin shown runs this far beyond the stoma's edge.
SKIN_MM = 50
SKIN_RADIUS = STOMA_RADIUS + SKIN_MM * PER_MM
#: Rings of 10 mm that painting snaps to.
RING_MM = 10
#: The bands outside the skin that hold the used barrier's reading, side by side.
MELTED_RADII = (SKIN_RADIUS + 2, SKIN_RADIUS + 9)
LEAK_RADII = (SKIN_RADIUS + 9, SKIN_RADIUS + 16)
LABEL_RADIUS = SKIN_RADIUS + 30
#: Labels that would lie on one another are turned apart by so much of an hour.
LABEL_TURN = 0.35
#: Drawn so far out, dashed, where no one said how far out a finding reaches.
UNSAID_MM = 10


def at(hour: float, radius: float) -> tuple[float, float]:
    """The point at ``hour`` o'clock, ``radius`` from the centre."""
    angle = radians(30 * hour)
    return _rounded(radius * sin(angle)), _rounded(-radius * cos(angle))


def _rounded(value: float) -> float:
    """To a hundredth, half going up: Python's own rounding and a browser's differ there."""
    return floor(value * 100 + 0.5) / 100


def radius_of(mm: float) -> float:
    """How far from the centre a point ``mm`` beyond the stoma's edge is drawn."""
    return STOMA_RADIUS + min(mm, SKIN_MM) * PER_MM


def _text(point: tuple[float, float]) -> str:
    return f"{point[0]:g} {point[1]:g}"


def ring_path(inner: float, outer: float) -> str:
    """The whole way round, to be filled even-odd."""
    return " ".join(
        f"M {_text(at(12, r))} A {r:g} {r:g} 0 1 1 {_text(at(6, r))} "
        f"A {r:g} {r:g} 0 1 1 {_text(at(12, r))} Z"
        for r in (outer, inner)
    )


def run_path(first: int, last: int, inner: float, outer: float) -> str:
    """The sectors from ``first`` clockwise to ``last``, between two radii."""
    span = (last - first) % 12 + 1
    begin, end = first - 0.5, first - 0.5 + span
    large = 1 if span > 6 else 0
    return (
        f"M {_text(at(begin, inner))} L {_text(at(begin, outer))} "
        f"A {outer:g} {outer:g} 0 {large} 1 {_text(at(end, outer))} "
        f"L {_text(at(end, inner))} "
        f"A {inner:g} {inner:g} 0 {large} 0 {_text(at(begin, inner))} Z"
    )


def hours_path(hours: ClockHours, inner: float, outer: float) -> str:
    """Every run of ``hours`` as one path, to be filled even-odd."""
    if len(hours) == 12:
        return ring_path(inner, outer)
    return " ".join(run_path(first, last, inner, outer) for first, last in hours.arcs())


def lumen_spot(
    place: str, hour: int | None, across: float, along: float, turned: float
) -> tuple[float, float] | None:
    """Where the lumen is drawn on a stoma of these half axes, turned by so many degrees: in the
    middle, half way to the edge, or at the edge; None where that was not recorded."""
    if place == LumenPosition.CENTRE:
        return 0.0, 0.0
    if not place or hour is None:
        return None
    angle = radians(30 * hour - turned)
    edge = 1 / hypot(sin(angle) / across, cos(angle) / along)
    return at(hour, edge / 2 if place == LumenPosition.OFF_CENTRE else edge)


def middle_hour(hours: ClockHours) -> float:
    """Where a label for ``hours`` goes: the middle of the first run."""
    first, last = hours.arcs()[0]
    if len(hours) == 12:
        return 12.0
    return first + ((last - first) % 12) / 2
