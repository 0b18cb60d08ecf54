"""The cutting template's drawing in mm, x to the right and y down the page.

Every number is a true length on paper: the SVG's width, height and viewBox are all in mm.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import cos, hypot, radians, sin
from typing import Generic

from clinic.documents.patient_language.unsaid import Phrase, Unsaid, W

Point = tuple[float, float]

#: Room round the opening for the hours and the words beside them.
SIDE_MM, TOP_MM = 19.0, 24.0
#: The ruler up the page has its own column.
COLUMN_MM = 19.0
ROW_MM = 17.0
RULER_MM = 100
#: Words beside the drawing are lines in boxes this wide and high, about their middle.
WORD_MM, WORD_HIGH_MM = 80.0, 6.0
#: Where to push the tip of the scissors in (common practice, no source).
STARTER_MM = 3.0


class Side(StrEnum):
    """Which side of the barrier the paper shows."""

    FRONT = "front"
    BACK = "back"


@dataclass(frozen=True)
class Word(Generic[W]):
    """A label and the place of its middle, mm."""

    text: W
    x: float
    y: float
    turn: int = 0

    @property
    def left(self) -> float:
        return self.x - WORD_MM / 2

    @property
    def top(self) -> float:
        return self.y - WORD_HIGH_MM / 2


@dataclass(frozen=True)
class Ruler:
    """``ticks``: SVG path; labels at 0, 50 and 100 mm."""

    ticks: str
    labels: tuple[Word[str], ...]


@dataclass(frozen=True)
class Drawing(Generic[W]):
    """``cut`` and ``stoma``: closed SVG paths ("" where unknown) about the middle ``x``, ``y``.

    ``reach``: radius of the smallest circle about the middle that holds the opening. ``sides``:
    words printed over the drawing.
    """

    width: float
    height: float
    x: float
    y: float
    cut: str
    stoma: str
    reach: float
    starter: float
    cross: str
    hours: tuple[Word[str], ...]
    marks: str
    sides: tuple[Word[W], ...]
    across: Ruler
    upright: Ruler


def reach_of(opening: tuple[Point, ...]) -> float:
    """From the middle to the farthest point of the opening, mm."""
    return max(hypot(x, y) for x, y in opening)


def drawing_of(
    opening: tuple[Point, ...],
    stoma: tuple[Point, ...],
    side: Side,
) -> Drawing[Unsaid]:
    """``opening`` and ``stoma`` as the plan has them: x to the patient's left, y to the head.
    Only ``side`` mirrors it, never the direction of writing."""
    reach = reach_of(opening)
    half, half_up = reach + SIDE_MM, reach + TOP_MM
    width = max(COLUMN_MM + 2 * half, COLUMN_MM + RULER_MM + 8)
    height = max(half_up + reach + SIDE_MM, RULER_MM + 8.0)
    x = COLUMN_MM + (width - COLUMN_MM) / 2
    y = half_up + (height - half_up - half) / 2
    return Drawing(
        width=width,
        height=height + ROW_MM,
        x=x,
        y=y,
        cut=path_of(opening, side, x, y),
        stoma=path_of(stoma, side, x, y),
        reach=reach,
        starter=min(STARTER_MM, min(hypot(px, py) for px, py in opening) / 3),
        cross=f"M {x - 1:.3f} {y:.3f} h 2 M {x:.3f} {y - 1:.3f} v 2",
        hours=tuple(Word(str(h), *at(h, reach + 9, side, x, y)) for h in range(1, 13)),
        marks=" ".join(_mark(h, reach, side, x, y) for h in range(1, 13)),
        sides=_sides(reach, side, x, y),
        across=_across(COLUMN_MM + 2, height + 3),
        upright=_upright(8.0, 4.0),
    )


def at(hour: float, radius: float, side: Side, x: float, y: float) -> Point:
    """The point at ``hour``: 3 lies to the right from the front, to the left from the back."""
    angle = radians(30 * hour)
    flip = -1 if side is Side.BACK else 1
    return x + flip * radius * sin(angle), y - radius * cos(angle)


def path_of(points: tuple[Point, ...], side: Side, x: float, y: float) -> str:
    """A closed SVG path; "" without points."""
    if not points:
        return ""
    flip = -1 if side is Side.BACK else 1
    placed = (f"{x + flip * px:.3f} {y - py:.3f}" for px, py in points)
    return f"M {' L '.join(placed)} Z"


def _mark(hour: int, reach: float, side: Side, x: float, y: float) -> str:
    (x1, y1), (x2, y2) = at(hour, reach + 3, side, x, y), at(hour, reach + 5.5, side, x, y)
    return f"M {x1:.3f} {y1:.3f} L {x2:.3f} {y2:.3f}"


def _sides(reach: float, side: Side, x: float, y: float) -> tuple[Word[Unsaid], ...]:
    out = reach + 15.5
    (left_x, left_y), (right_x, right_y) = at(3, out, side, x, y), at(9, out, side, x, y)
    turn = 90 if side is Side.FRONT else -90
    return (
        Word(Phrase("Top: towards the head"), x, y - out - 2),
        Word(Phrase("patient's left"), left_x, left_y, turn),
        Word(Phrase("patient's right"), right_x, right_y, -turn),
    )


def _tick(mm: int) -> float:
    """Length of a tick of the ruler, mm."""
    if mm % 50 == 0:
        return 7.0
    return 4.5 if mm % 10 == 0 else 2.5


def _across(x: float, y: float) -> Ruler:
    ticks = [f"M {x:.3f} {y:.3f} L {x + RULER_MM:.3f} {y:.3f}"]
    ticks += [
        f"M {x + mm:.3f} {y:.3f} L {x + mm:.3f} {y + _tick(mm):.3f}"
        for mm in range(0, RULER_MM + 1, 5)
    ]
    labels = tuple(Word(_label(mm), x + mm, y + 11.5) for mm in (0, 50, 100))
    return Ruler(" ".join(ticks), labels)


def _upright(x: float, y: float) -> Ruler:
    ticks = [f"M {x:.3f} {y:.3f} L {x:.3f} {y + RULER_MM:.3f}"]
    ticks += [
        f"M {x:.3f} {y + mm:.3f} L {x + _tick(mm):.3f} {y + mm:.3f}"
        for mm in range(0, RULER_MM + 1, 5)
    ]
    labels = tuple(Word(_label(mm), x - 4, y + mm, -90) for mm in (0, 50, 100))
    return Ruler(" ".join(ticks), labels)


def _label(mm: int) -> str:
    return f"{mm} mm" if mm == RULER_MM // 2 else str(mm)
