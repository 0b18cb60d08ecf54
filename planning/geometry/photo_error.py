"""How far a size measured on a photo can be off, and why.

Three kinds of error are added up, so that the sum is a bound and not a best case:

- the marks: each is off by chance; what that does to each size is worked out by moving every mark
  by one standard deviation either way, and counted twice over (about 95 %);
- the points between which the edge was not marked: how much the sizes change when every other
  point is left out, a third of it (an edge that bends smoothly errs by a sixteenth);
- what the photo cannot tell: how long the reference really is, how far its plane lies above or
  below the skin, and, with a straight reference, how askew the camera looked. A length seen at a
  tilt t shrinks to its cos(t) across the tilt's axis, and things lying towards the camera look
  larger by (distance apart × sin(t)) / distance of the camera.

The skin round the stoma is taken as flat and the lens as free of distortion.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from planning.geometry.photo_marks import CARD_MM, Card, Marks
from planning.geometry.photo_plane import Array

#: Design values, no source. The camera is held square by eye, from a forearm's length on.
TILT_DEGREES: Final = 10.0
CAMERA_MM: Final = 300.0
#: The reference lies on the skin or is held so near to its level.
LEVEL_MM: Final = 3.0
#: Both ends of a rule read; a worn card and its rounded corners. Either way.
LINE_READ_MM: Final = 0.5
CARD_READ_MM: Final = 0.2
#: Which way the head is, one standard deviation.
HEAD_DEGREES: Final = 5.0
#: Of the random part: about 95 %.
_TWICE: Final = 2.0

#: Reference pixels, outline pixels, head -> length, width, area, length less width, radii.
Measuring = Callable[[Array, Array, float], Array]
_AREA, _DIFFERENCE = 2, 3


@dataclass(frozen=True)
class Budget:
    """``errors``: of length, width, area, their difference and the radii, mm and mm².

    The shares tell where the length's error comes from, mm: the marks, the edge between them, the
    reference's own length, its level, the camera's tilt (0 with a card).
    """

    errors: tuple[float, ...]
    marks_mm: float
    between_mm: float
    reference_mm: float
    level_mm: float
    tilt_mm: float


def budget_of(
    marks: Marks, measuring: Measuring, reference: Array, outline: Array, apart_mm: float
) -> Budget:
    """``apart_mm``: between the middles of the reference and the stoma."""
    sizes = measuring(reference, outline, marks.head_degrees)
    by_chance = _TWICE * _by_chance(marks, measuring, reference, outline)
    between = _between(marks, measuring, reference, outline, sizes)
    read = _read(marks)
    level = LEVEL_MM / CAMERA_MM
    skew, nearer = _tilt(marks, apart_mm)
    by_length = read + level + skew + nearer
    bounds = sizes * by_length
    # An area errs twice as a length does, but only once by the skew: one of its sides alone.
    bounds[_AREA] = sizes[_AREA] * (2 * (read + level + nearer) + skew)
    # What makes everything larger leaves a round thing round; the skew does not.
    bounds[_DIFFERENCE] = sizes[0] * skew + sizes[_DIFFERENCE] * by_length
    errors = by_chance + between + bounds
    length = float(sizes[0])
    return Budget(
        errors=tuple(float(e) for e in errors),
        marks_mm=float(by_chance[0]),
        between_mm=float(between[0]),
        reference_mm=length * read,
        level_mm=length * level,
        tilt_mm=length * (skew + nearer),
    )


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


def _tilt(marks: Marks, apart_mm: float) -> tuple[float, float]:
    """Shares by which a length is seen too short, and too near or too far."""
    if isinstance(marks.reference, Card):
        return 0.0, 0.0
    tilt = math.radians(TILT_DEGREES)
    towards = min(apart_mm * math.sin(tilt), CAMERA_MM / 2)
    return 1 / math.cos(tilt) - 1, towards / (CAMERA_MM - towards)
