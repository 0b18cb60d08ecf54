"""How far a size measured on a photo can be off, and why.

Three kinds of error are added up, so that the sum is a bound and not a best case:

- the marks: each is off by chance; what that does to each size is worked out by moving every mark
  by one standard deviation either way, and counted twice over (about 95 %);
- the points between which the edge was not marked: how much the sizes change when every other
  point is left out, a third of it (an edge that bends smoothly errs by a sixteenth);
- what the photo cannot tell: how long the reference really is, how far it lies above or below the
  skin, how rounded the belly is and, with a straight reference, how askew the camera looked. All
  that may be is tried (``photo_possible``). The size given is that of flat skin seen straight, the
  reference half way between its least and most height; the error reaches to the farthest other.

The lens is taken as free of distortion.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from planning.geometry.photo_marks import CARD_MM, Card, Marks, TooUnsure
from planning.geometry.photo_plane import Array
from planning.geometry.photo_possible import AREA, Possible
from planning.inputs.usable_numbers import check_numbers

#: Both ends of a rule read; a worn card and its rounded corners. Either way (design values).
LINE_READ_MM: Final = 0.5
CARD_READ_MM: Final = 0.2
#: Which way the head is, one standard deviation (design value).
HEAD_DEGREES: Final = 5.0
#: A length or width that may be further off is not given (design value): an opening is cut about
#: 3 mm wider than the stoma, and nurses' readings differ by as much.
MOST_ERROR_MM: Final = 5.0
#: Of the random part: about 95 %.
_TWICE: Final = 2.0

#: Reference pixels, outline pixels, head -> length, width, area, length less width, radii.
Measuring = Callable[[Array, Array, float], Array]


@dataclass(frozen=True)
class Budget:
    """``values`` and ``errors``: of length, width, area, their difference and the radii, mm, mm².

    The shares tell where the length's error comes from, mm: the marks, the edge between them, the
    reference's own length, its level, the camera's tilt (0 with a card), the rounded belly.
    """

    values: tuple[float, ...]
    errors: tuple[float, ...]
    marks_mm: float
    between_mm: float
    reference_mm: float
    level_mm: float
    tilt_mm: float
    bend_mm: float


def budget_of(
    marks: Marks, measuring: Measuring, reference: Array, outline: Array, possible: Possible
) -> Budget:
    check_numbers(reference=reference, outline=outline)
    by_chance = _TWICE * _by_chance(marks, measuring, reference, outline)
    sizes = measuring(reference, outline, marks.head_degrees)
    between = _between(marks, measuring, reference, outline, sizes)
    values = (possible.level.max(axis=0) + possible.level.min(axis=0)) / 2
    level, tilt, bend = (
        np.abs(rows - values).max(axis=0) for rows in (possible.level, possible.tilt, possible.bend)
    )
    read = values * _read(marks)
    read[AREA] *= 2
    errors = by_chance + between + read + bend
    return Budget(
        values=tuple(float(v) for v in values),
        errors=tuple(float(e) for e in errors),
        marks_mm=float(by_chance[0]),
        between_mm=float(between[0]),
        reference_mm=float(read[0]),
        level_mm=float(level[0]),
        tilt_mm=float(tilt[0] - level[0]),
        bend_mm=float(bend[0] - tilt[0]),
    )


def check_error(budget: Budget) -> None:
    """Raises ``TooUnsure``, which says what widens the error most."""
    error = max(budget.errors[:2])
    if error <= MOST_ERROR_MM:
        return
    widest = max(_INSTEAD, key=lambda share: getattr(budget, share))
    raise TooUnsure(error, MOST_ERROR_MM, *_INSTEAD[widest])


#: Share of the error -> which answer it belongs to, and what to do.
_INSTEAD: Final = {
    "level_mm": (
        "raised",
        "Lay the reference flat on the skin and take the photo again, or give its height.",
    ),
    "tilt_mm": (
        "askew",
        "Lay a card beside the stoma, or the ruler closer to it, and hold the camera straight "
        "above.",
    ),
    "bend_mm": (
        "rounded",
        "Lay the reference closer to the stoma, where the belly bends least, or measure with a "
        "ruler.",
    ),
    "marks_mm": (
        "outline",
        "Zoom in before you mark, or take the photo from closer up.",
    ),
    "between_mm": ("outline", "Mark more points on the edge."),
}


def _by_chance(marks: Marks, measuring: Measuring, reference: Array, outline: Array) -> Array:
    """Standard deviations: each coordinate moved by its own, the effects added as squares."""
    head = marks.head_degrees
    turned = measuring(reference, outline, head + HEAD_DEGREES)
    squares = ((turned - measuring(reference, outline, head - HEAD_DEGREES)) / 2) ** 2
    for pixels, placed in ((reference, marks.reference.marks), (outline, marks.outline)):
        for i, mark in enumerate(placed):
            for axis in (0, 1):
                kept = pixels[i, axis]
                pixels[i, axis] = kept + mark.sd
                above = measuring(reference, outline, head)
                pixels[i, axis] = kept - mark.sd
                below = measuring(reference, outline, head)
                pixels[i, axis] = kept
                squares += ((above - below) / 2) ** 2
    root: Array = np.sqrt(squares)
    return root


def _between(
    marks: Marks, measuring: Measuring, reference: Array, outline: Array, sizes: Array
) -> Array:
    if len(outline) < 6:
        return np.abs(sizes) / 4  # too few to tell: a quarter of everything
    halves = [measuring(reference, outline[i::2], marks.head_degrees) for i in (0, 1)]
    furthest: Array = np.max([np.abs(half - sizes) for half in halves], axis=0)
    return furthest / 3


def _read(marks: Marks) -> float:
    """Share by which the reference's own length may be off."""
    if isinstance(marks.reference, Card):
        return CARD_READ_MM / CARD_MM[1]
    return LINE_READ_MM / marks.reference.length_mm
