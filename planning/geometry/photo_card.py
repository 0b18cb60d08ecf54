"""A card read from its four corners: which sides are the long ones, and where the camera stood.

The side ratio alone cannot tell: a card tilted far about its short side looks like one lying the
other way. What tells is whether the four corners, for some focal length, are a rectangle of the
card's shape: its angle right and its sides in their proportion, within what the marks allow.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np
import numpy.typing as npt

from planning.geometry.photo_marks import (
    CARD_MM,
    LongSideUnclear,
    NoCard,
    ReferenceTooShort,
    TiltedTooFar,
)
from planning.geometry.photo_plane import CARD, Array, homography, in_turn
from planning.geometry.photo_view import CAMERA_MM, FOCAL
from planning.inputs.usable_numbers import check_numbers

#: Steepest view of a card that is measured by (design value).
MOST_TILT_DEGREES: Final = 50.0
#: A card seen more steeply than this is not thought of: no one could mark the edge behind the bud
#: (design value). So steep a card, turned, would look like one seen straight.
_UNSEEN_DEGREES: Final = 70.0
#: Chi-square of two degrees of freedom, passed by chance once in a thousand.
_MISFIT: Final = 13.8
#: In equal steps of 1 / focal length, by which perspective grows.
_FOCALS: Final[Array] = 1.0 / np.linspace(1 / FOCAL[0], 1 / FOCAL[1], 97)
_MIDDLE: Final[Array] = CARD.mean(axis=0)


@dataclass(frozen=True)
class CardRead:
    """Corners clockwise as seen, a long side first, and which of the marked ones each is; the focal
    lengths (pixels) that fit them, and the tilt that the best of these gives."""

    corners: Array
    order: tuple[int, ...]
    focals: tuple[float, ...]
    tilt_degrees: float


def read_card(corners: Array, sds: Array, picture: tuple[int, int]) -> CardRead:
    """``sds``: standard deviation of each corner, pixels. Raises the ``PhotoError`` of marks that
    are no card, of a card seen too steeply, and of one whose long side is not known."""
    check_numbers(corners=corners)
    check_numbers(sds=sds, picture=picture, above=0)
    order = in_turn(corners)
    longest = max(math.dist(a, b) for a, b in pairwise([*corners[order], corners[order[0]]]))
    if FOCAL[0] * math.hypot(*picture) * CARD_MM[0] > CAMERA_MM[1] * longest:
        raise ReferenceTooShort  # from farther away than a camera is held
    found = [
        read
        for first in (0, 1)
        for turn in [np.roll(order, -first)]
        for read in [_read(corners, turn, sds, picture)]
        if read is not None
    ]
    if not found:
        raise NoCard
    if len(found) == 2:
        raise LongSideUnclear
    if found[0].tilt_degrees > MOST_TILT_DEGREES:
        raise TiltedTooFar
    return found[0]


def _read(
    marked: Array, order: npt.NDArray[np.intp], sds: Array, picture: tuple[int, int]
) -> CardRead | None:
    """In this order, the first side taken as a long one; None where that makes no card."""
    corners = marked[order]
    diagonal = math.hypot(*picture)
    focals = _FOCALS * diagonal
    middle = np.array(picture, dtype=np.float64) / 2
    shape = shape_of(corners - middle, focals)
    spread = np.zeros((2, 2, len(focals)))
    for i, sd in enumerate(sds[order]):
        for step in np.eye(2):
            moved = corners - middle
            moved[i] += step
            spread += _squares(shape_of(moved, focals) - shape) * sd**2
    inverse = np.linalg.inv(np.moveaxis(spread, 2, 0))
    misfits = np.einsum("if,fij,jf->f", shape, inverse, shape)
    eyes = np.array([eye_of(corners, picture, float(focal)) for focal in focals])
    away = eyes - np.array([*_MIDDLE, 0.0])
    tilts = np.degrees(np.arccos(np.minimum(away[:, 2] / np.linalg.norm(away, axis=1), 1.0)))
    near, far = CAMERA_MM
    fits = (misfits <= _MISFIT) & (eyes[:, 2] <= far) & (tilts <= _UNSEEN_DEGREES)
    if not fits.any():
        return None
    tilt = float(tilts[np.where(fits, misfits, np.inf).argmin()])
    # Nearer than a camera is held, only where the card's shape leaves nothing else.
    fitting = [i for i in range(len(focals)) if fits[i]]
    held = [i for i in fitting if eyes[i][2] >= near] or fitting[-1:]
    return CardRead(
        corners, tuple(int(i) for i in order), tuple(float(focals[i]) for i in held), tilt
    )


def shape_of(corners: Array, focals: Array) -> Array:
    """For each focal length, of the corners of a card 0 and 0: the cosine of its angle, and the
    logarithm of its sides' proportion over the true one. Pixels from the picture's middle."""
    check_numbers(corners=corners)
    check_numbers(focals=focals, above=0)
    seen = homography(CARD, corners)
    long, short = (
        np.array([seen[0, k] / focals, seen[1, k] / focals, np.full(len(focals), seen[2, k])])
        for k in (0, 1)
    )
    along, across = np.linalg.norm(long, axis=0), np.linalg.norm(short, axis=0)
    return np.array([(long * short).sum(axis=0) / (along * across), np.log(along / across)])


def _squares(change: Array) -> Array:
    product: Array = change[:, None] * change[None, :]
    return product


def eye_of(corners: Array, picture: tuple[int, int], focal_px: float) -> Array:
    """Where the camera stood, mm in the card's frame; the third figure is its distance."""
    check_numbers(corners=corners)
    check_numbers(picture=picture, focal_px=focal_px, above=0)
    middle = np.array(picture, dtype=np.float64) / 2
    seen = homography(CARD, corners - middle) / np.array([[focal_px], [focal_px], [1.0]])
    if float(seen[2] @ np.array([*_MIDDLE, 1.0])) < 0:
        seen = -seen
    scale = math.sqrt(float(np.linalg.norm(seen[:, 0]) * np.linalg.norm(seen[:, 1])))
    left, _, right = np.linalg.svd(seen[:, :2] / scale, full_matrices=False)
    sides = left @ right
    turned = np.column_stack([sides, np.cross(sides[:, 0], sides[:, 1])])
    eye: Array = -turned.T @ seen[:, 2] / scale
    return eye
