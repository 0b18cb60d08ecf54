"""From a photo's pixels to millimetres on the skin, taken as a plane.

A straight reference gives a scale alone: the camera is taken to look straight at the skin. A card
gives its plane's projective map (homography), which takes the tilt out.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

import numpy as np
import numpy.typing as npt

from planning.geometry.photo_marks import (
    CARD_MM,
    SHORTEST_PX,
    CornersNotConvex,
    MarksTooFar,
    ReferenceTooShort,
)
from planning.inputs.usable_numbers import check_numbers

Array = npt.NDArray[np.float64]
#: Rows (x, y) of pixels -> rows (x, y) of mm, y upwards; turned and placed as it comes.
Plane = Callable[[Array], Array]

#: The horizon of the card's plane is kept this far off, as a share of the map's denominator, which
#: is 1 in the middle of the corners and 0 on the horizon.
_NEAR_HORIZON: Final = 0.2


def line_plane(ends: Array, length_mm: float) -> Plane:
    """A scale: as many mm a pixel as the line has."""
    check_numbers(ends=ends)
    check_numbers(length_mm=length_mm, above=0)
    scale = length_mm / math.dist(ends[0], ends[1])
    return lambda pixels: pixels * np.array([scale, -scale])


def card_plane(corners: Array) -> Plane:
    """The card's own plane, mm, from its corners clockwise as seen, a long side first."""
    check_numbers(corners=corners)
    matrix = homography(corners, CARD)

    def plane(pixels: Array) -> Array:
        if _denominator(matrix, pixels).min() < _NEAR_HORIZON:
            raise MarksTooFar
        return _project(matrix, pixels)

    return plane


#: The card's corners, clockwise as seen, from the start of a long side.
CARD: Final[Array] = np.array(
    [(0.0, 0.0), (CARD_MM[0], 0.0), (CARD_MM[0], -CARD_MM[1]), (0.0, -CARD_MM[1])]
)


def in_turn(corners: Array) -> npt.NDArray[np.intp]:
    """Which corner comes when, clockwise as seen. Raises ``CornersNotConvex`` or
    ``ReferenceTooShort``."""
    check_numbers(corners=corners)
    away = corners - corners.mean(axis=0)
    # y points down: growing angles go clockwise.
    order = np.argsort(np.arctan2(away[:, 1], away[:, 0]), kind="stable")
    clockwise = corners[order]
    sides = np.roll(clockwise, -1, axis=0) - clockwise
    turns = _cross(sides, np.roll(sides, -1, axis=0))
    lengths = np.hypot(sides[:, 0], sides[:, 1])
    if lengths.min() < SHORTEST_PX / 4:
        raise ReferenceTooShort
    if (turns <= 1e-3 * lengths.max() ** 2).any():
        raise CornersNotConvex
    if max(lengths[0] + lengths[2], lengths[1] + lengths[3]) < 2 * SHORTEST_PX:
        raise ReferenceTooShort
    return order


def homography(source: Array, target: Array) -> Array:
    """The 3 × 3 map that takes ``source`` to ``target``, by least squares; its denominator
    is 1 in the middle of ``source``.

    Points are moved and scaled to about 1 first (Hartley 1997), or the equations lose figures.
    """
    check_numbers(source=source, target=target)
    to_unit, unit = _normalised(source)
    rows, right = [], []
    for (x, y), (u, v) in zip(unit, target, strict=True):
        rows.append([x, y, 1, 0, 0, 0, -u * x, -u * y])
        rows.append([0, 0, 0, x, y, 1, -v * x, -v * y])
        right += [u, v]
    solved, *_ = np.linalg.lstsq(np.array(rows), np.array(right), rcond=None)
    matrix: Array = np.append(solved, 1.0).reshape(3, 3) @ to_unit
    return matrix


def _normalised(points: Array) -> tuple[Array, Array]:
    middle = points.mean(axis=0)
    scale = 1.0 / float(np.abs(points - middle).mean())
    to_unit = np.array(
        [[scale, 0.0, -scale * middle[0]], [0.0, scale, -scale * middle[1]], [0.0, 0.0, 1.0]]
    )
    return to_unit, (points - middle) * scale


def _denominator(matrix: Array, pixels: Array) -> Array:
    below: Array = pixels @ matrix[2, :2] + matrix[2, 2]
    return below


def _project(matrix: Array, pixels: Array) -> Array:
    above: Array = pixels @ matrix[:2, :2].T + matrix[:2, 2]
    return above / _denominator(matrix, pixels)[:, None]


def _cross(a: Array, b: Array) -> Array:
    product: Array = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    return product


def head_up(points: Array, foot: Array, tip: Array) -> Array:
    """``points`` turned so that from ``foot`` to ``tip``, towards the head, is upwards."""
    check_numbers(points=points, foot=foot, tip=tip)
    bearing = math.atan2(tip[0] - foot[0], tip[1] - foot[1])
    c, s = math.cos(bearing), math.sin(bearing)
    turned: Array = points @ np.array([[c, s], [-s, c]])
    return turned
