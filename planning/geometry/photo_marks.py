"""What was marked on a photo, in its own pixels, and what can be wrong with it.

Pixels: x to the right, y down, from the picture's upper left corner.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from planning.geometry.photo_setting import HIGHEST_MM, Askew, Setting
from planning.inputs.usable_numbers import check_numbers

#: Identification card, format ID-1 of ISO/IEC 7810: width and height, mm.
CARD_MM: Final = (85.60, 53.98)

#: How far a mark is off, one standard deviation (design values): in pixels of the screen on which
#: it was placed, and never less than this many pixels of the picture, whose edges are soft.
POINTER_PX: Final = 1.5
EDGE_PX: Final = 1.0

#: Shorter on the picture, a reference says nothing (design value).
SHORTEST_PX: Final = 60.0
#: A straight reference that a hand holds beside a stoma, mm (typing limits).
LINE_MM: Final = (10.0, 300.0)
MOST_POINTS: Final = 90


class PhotoError(ValueError):
    """These marks give no measurement. ``part`` is what to change: ``reference``, ``outline``,
    ``askew``, ``raised`` or ``rounded``."""

    part = "outline"
    words = ""

    def __init__(self) -> None:
        super().__init__(self.words)


class ReferenceTooShort(PhotoError):  # noqa: N818 - named as the nurse reads it
    part = "reference"
    words = "The reference is too small on this photo. Mark it on a closer photo."


class ReferenceOutOfRange(PhotoError):  # noqa: N818
    part = "reference"
    words = "Give the length of the reference in mm, from 10 to 300."


class CornersNotConvex(PhotoError):  # noqa: N818
    part = "reference"
    words = "The four marks do not go round a card. Mark each corner once."


class NoCard(PhotoError):  # noqa: N818
    part = "reference"
    words = "These four marks do not have the shape of a card. Check each corner."


class TiltedTooFar(PhotoError):  # noqa: N818
    part = "reference"
    words = "The photo was taken too much from the side. Take it again from straight above."


class LongSideUnclear(PhotoError):  # noqa: N818
    part = "reference"
    words = (
        "From so far to the side, the card's long side could be its short side. Take the photo "
        "again from straight above."
    )


class TooFewPoints(PhotoError):  # noqa: N818
    words = "Mark at least three points on the stoma's edge; twelve or more are better."


class TooManyPoints(PhotoError):  # noqa: N818
    words = f"At most {MOST_POINTS} points on the edge."


class CrossingOutline(PhotoError):  # noqa: N818
    words = "The edge crosses itself. Move or remove the point that is out of order."


class FoldedOutline(PhotoError):  # noqa: N818
    words = "The middle of this edge lies outside it. Mark the whole way round the stoma."


class MarksTooFar(PhotoError):  # noqa: N818
    words = "The edge lies too far from the card to be measured. Hold the card closer."


class AskewUnknown(PhotoError):  # noqa: N818
    part = "askew"
    words = (
        "With a ruler, a camera held strongly askew gives no size. Take the photo again from "
        "straight above, or lay a card beside the stoma."
    )


class RaisedOutOfRange(PhotoError):  # noqa: N818
    part = "raised"
    words = f"Give the height above the skin in mm, from 0 to {HIGHEST_MM:.0f}."


class TooRounded(PhotoError):  # noqa: N818
    part = "reference"
    words = (
        "Between stoma and reference the belly may bend too much to measure. Lay the reference "
        "closer to the stoma, or measure with a ruler."
    )


class TooUnsure(PhotoError):  # noqa: N818
    """``error_mm`` of a length or width would be more than ``most_mm``."""

    def __init__(self, error_mm: float, most_mm: float, part: str, instead: str) -> None:
        self.part = part
        self.words = (
            f"This size could be off by {math.ceil(error_mm)} mm, which is too much to go by "
            f"(limit {most_mm:.0f} mm). {instead}"
        )
        super().__init__()


@dataclass(frozen=True, slots=True)
class Mark:
    """``wide``: pixels of the picture under one pixel of the screen when it was placed."""

    x: float
    y: float
    wide: float = 1.0

    @property
    def sd(self) -> float:
        """Standard deviation of each coordinate, pixels of the picture."""
        return max(EDGE_PX, POINTER_PX * self.wide)


@dataclass(frozen=True, slots=True)
class Line:
    """Both ends of a straight reference and its length, mm."""

    start: Mark
    end: Mark
    length_mm: float

    @property
    def marks(self) -> tuple[Mark, ...]:
        return (self.start, self.end)


@dataclass(frozen=True, slots=True)
class Card:
    """Four corners of a card in format ID-1, in any order; where its straight edges would meet."""

    corners: tuple[Mark, Mark, Mark, Mark]

    @property
    def marks(self) -> tuple[Mark, ...]:
        return self.corners


@dataclass(frozen=True, slots=True)
class Marks:
    """``head_degrees``: which way the head is, clockwise from the photo's top."""

    reference: Line | Card
    outline: tuple[Mark, ...]
    setting: Setting
    head_degrees: float = 0.0


def check_marks(marks: Marks) -> None:
    """Raises the ``PhotoError`` that the marks alone show."""
    _check_numbers(marks)
    reference = marks.reference
    if isinstance(reference, Line):
        low, high = LINE_MM
        if not low <= reference.length_mm <= high:
            raise ReferenceOutOfRange
        ends = reference.start, reference.end
        if math.dist(*((m.x, m.y) for m in ends)) < SHORTEST_PX:
            raise ReferenceTooShort
        if marks.setting.askew in {None, Askew.STRONGLY}:
            raise AskewUnknown
    raised = marks.setting.raised_mm
    if raised is not None and not 0 <= raised <= HIGHEST_MM:
        raise RaisedOutOfRange
    if len(marks.outline) < 3:
        raise TooFewPoints
    if len(marks.outline) > MOST_POINTS:
        raise TooManyPoints


def _check_numbers(marks: Marks) -> None:
    placed = (*marks.reference.marks, *marks.outline)
    check_numbers(marks=[(mark.x, mark.y) for mark in placed], head_degrees=marks.head_degrees)
    check_numbers(wide=[mark.wide for mark in placed], picture=marks.setting.picture, above=0)
