"""Every size that the stoma may have, as far as the photo and the nurse's answers tell.

One after the other: the camera near or far, the reference as high and as low as it may lie, the
camera tilted as far as it may be in every direction, and the belly as rounded as it may be.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from planning.geometry.photo_card import CardRead, eye_of
from planning.geometry.photo_marks import Line, Marks
from planning.geometry.photo_plane import CARD, Array, card_plane, head_up
from planning.geometry.photo_setting import LEAST_RADIUS_MM, MOST_TILT
from planning.geometry.photo_shape import middle_of, sizes_of
from planning.geometry.photo_surface import Skin, on_skin, rounded_skins
from planning.geometry.photo_view import CAMERA_MM, FOCAL, View, tilted_views
from planning.inputs.usable_numbers import check_numbers

#: Steps in which a ruler's scale settles on a rounded skin; the third changes less than a 1000th.
_STEPS: Final = 4
#: Place of the area among the sizes.
AREA: Final = 2


@dataclass(frozen=True)
class Possible:
    """Rows of sizes (as ``Sizes.vector``), each set with what the one before it lets vary."""

    level: Array
    tilt: Array
    bend: Array


@dataclass(frozen=True)
class Pixels:
    """The smooth edge, then a step towards the head from its middle."""

    edge: Array
    foot: Array
    tip: Array

    @classmethod
    def of(cls, edge: Array, head_degrees: float) -> Pixels:
        check_numbers(edge=edge, head_degrees=head_degrees)
        turn, at = math.radians(head_degrees), middle_of(edge)
        step = np.array([math.sin(turn), -math.cos(turn)])
        return cls(edge, at - step, at + step)

    def upright(self, plane: Callable[[Array], Array]) -> Array:
        """The edge on ``plane``, the head upwards."""
        *edge, foot, tip = plane(np.vstack([self.edge, self.foot, self.tip]))
        return head_up(np.array(edge), foot, tip)


def possible_by_card(marks: Marks, card: CardRead, pixels: Pixels) -> Possible:
    """The card's plane is known; where the camera stood above it, nearly."""
    setting = marks.setting
    plane, middle = card_plane(card.corners), CARD.mean(axis=0)
    at = middle_of(plane(pixels.edge))
    low, high = setting.heights
    levels, most = (-high, -low), 1.0 / LEAST_RADIUS_MM[setting.rounded]
    way = math.atan2(*(at - middle)[::-1])
    level, bend = [], []
    for focal in {card.focals[0], card.focals[-1]}:
        eye = eye_of(card.corners, setting.picture, focal)

        def sizes(skin: Skin, eye: Array = eye) -> Array:
            edge = pixels.upright(lambda px: on_skin(plane(px), at, eye, middle, skin))
            return sizes_of(edge).vector

        level += [sizes(Skin(height)) for height in levels]
        bend += [sizes(skin) for skin in rounded_skins(levels, most, way)]
    rows = np.array(level)
    return Possible(rows, rows, np.vstack([rows, bend]))


def possible_by_line(marks: Marks, line: Line, ends: Array, pixels: Pixels) -> Possible:
    """The stoma's plane is tilted as it may be; the ruler, followed to where it lies, scales it."""
    check_numbers(ends=ends)
    setting = marks.setting
    assert setting.askew is not None, "check_marks refuses a ruler without it"  # noqa: S101
    diagonal = math.hypot(*setting.picture)
    straight: list[Array] = []
    askew: list[Array] = []
    bend: list[Array] = []
    for focal in _focals(line, ends, diagonal):
        for tilt in (0.0, MOST_TILT[setting.askew]):
            for view in tilted_views(middle_of(pixels.edge), setting.picture, focal, tilt):
                flat, rounded = _by_line(marks, line, ends, pixels, view)
                (askew if tilt else straight).extend(flat)
                bend += rounded
    level = np.array(straight)
    tilted = np.vstack([level, askew])
    return Possible(level, tilted, np.vstack([tilted, bend]))


def _focals(line: Line, ends: Array, diagonal: float) -> tuple[float, float]:
    """Least and most, pixels; the least no less than a camera held near enough has."""
    least, most = (diagonal * share for share in FOCAL)
    held = CAMERA_MM[0] * math.dist(*ends) / line.length_mm
    return min(max(least, held), most), most


def _by_line(
    marks: Marks, line: Line, ends: Array, pixels: Pixels, view: View
) -> tuple[list[Array], list[Array]]:
    unscaled = sizes_of(pixels.upright(view.plane)).vector
    at, there = middle_of(view.plane(pixels.edge)), view.plane(ends)
    way = math.atan2(*(there.mean(axis=0) - at)[::-1])
    levels, bend = marks.setting.heights, 1.0 / LEAST_RADIUS_MM[marks.setting.rounded]

    def sizes(skin: Skin) -> Array:
        scale = _scale(there, at, view.eye, skin, line.length_mm)
        scaled = unscaled * scale
        scaled[AREA] *= scale
        return scaled

    return (
        [sizes(Skin(level)) for level in levels],
        [sizes(skin) for skin in rounded_skins(levels, bend, way)],
    )


def _scale(ends: Array, at: Array, eye: Array, skin: Skin, length_mm: float) -> float:
    """mm for one unit of the plane, so that the ruler on ``skin`` is as long as it is."""
    scale = length_mm / math.dist(*ends)
    for _ in range(_STEPS):
        here = Skin(skin.level / scale, skin.bend * scale, skin.along)
        scale = length_mm / math.dist(*on_skin(ends, ends.mean(axis=0), eye, at, here))
    return scale
