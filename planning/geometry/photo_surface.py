"""From a plane in mm to the skin that was really there: higher or lower, and rounded.

What a plane shows is followed along the lines of sight to the plane that touches the skin there.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from planning.geometry.photo_marks import TooRounded
from planning.geometry.photo_plane import Array
from planning.geometry.photo_view import basis
from planning.inputs.usable_numbers import check_numbers

#: A plane met at a flatter angle than this sine is not measured on (design value).
_FLATTEST = 0.2


@dataclass(frozen=True)
class Skin:
    """Touches the height ``level`` (mm) at the place from which it is seen. ``bend``: 1 / radius;
    0 flat. ``along``: the direction of a cylinder's axis, radians; None a ball."""

    level: float
    bend: float = 0.0
    along: float | None = None


def rounded_skins(levels: tuple[float, ...], bend: float, way: float) -> Iterator[Skin]:
    """Balls, and cylinders askew of ``way``, the direction (radians) to what is measured. One
    along it is flat on that way; one across it bends as a ball does."""
    check_numbers(levels=levels, way=way)
    check_numbers(bend=bend, low=0)
    for level in levels:
        yield Skin(level, bend)
        yield Skin(level, bend, way + math.pi / 4)
        yield Skin(level, bend, way - math.pi / 4)


def on_skin(points: Array, at: Array, eye: Array, touch: Array, skin: Skin) -> Array:
    """``points`` of the plane, seen from ``eye``, on the plane touching ``skin`` where ``at`` is
    seen; mm from there. ``touch``: where the skin bends away from its level. Raises ``TooRounded``.
    """
    check_numbers(points=points, at=at, eye=eye, touch=touch)
    if not skin.bend:
        share = (eye[2] - skin.level) / eye[2]
        flat: Array = (points - at) * share
        return flat
    place, normal = _met(at, eye, touch, skin)
    sights = np.column_stack([points, np.zeros(len(points))]) - eye
    slope = sights @ normal
    if (-slope < _FLATTEST * np.linalg.norm(sights, axis=1)).any():
        raise TooRounded
    there = eye + sights * (((place - eye) @ normal) / slope)[:, None] - place
    on: Array = there @ np.column_stack(basis(normal))
    return on


def _met(at: Array, eye: Array, touch: Array, skin: Skin) -> tuple[Array, Array]:
    """Where the sight through ``at`` meets the skin, and its direction outwards there."""
    radius = 1.0 / skin.bend
    centre = np.array([touch[0], touch[1], skin.level - radius])
    sight = np.array([at[0], at[1], 0.0]) - eye
    away = eye - centre
    axis = np.zeros(3)
    if skin.along is not None:
        axis[:2] = math.cos(skin.along), math.sin(skin.along)
    # Across a cylinder's axis alone: along it nothing bends.
    across, from_middle = (v - axis * (v @ axis) for v in (sight, away))
    a, b = float(across @ across), float(across @ from_middle)
    root = b**2 - a * (float(from_middle @ from_middle) - radius**2)
    if root <= 0:
        raise TooRounded
    share = (-b - math.sqrt(root)) / a
    normal = (from_middle + share * across) / radius
    return eye + share * sight, normal
