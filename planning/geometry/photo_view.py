"""Where the camera stood: a plane in mm together with the eye that saw it.

The camera is a pinhole with square pixels that looked at the picture's middle. Its focal length is
given by the card's shape where the card is seen at an angle, else it lies in a range.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from planning.geometry.photo_plane import Array, Plane
from planning.inputs.usable_numbers import check_numbers

#: Focal length over the picture's diagonal (design values): a phone's wide lens is 0.5 to 0.6, its
#: long lens about 1.8, and a picture cut round its middle more. Farther away changes little.
FOCAL: Final = (0.5, 3.0)
#: The camera is held no nearer than about a forearm's length and no farther than an arm's, mm
#: (design values).
CAMERA_MM: Final = (250.0, 800.0)
#: Directions in which a tilt is tried; eight leave out less than a tenth of its effect.
_WAYS: Final = 8


@dataclass(frozen=True)
class View:
    """``plane``: pixels -> mm on a plane; ``eye``: the camera in the same frame, its third figure
    the distance from the plane."""

    plane: Plane
    eye: Array


def rays(pixels: Array, picture: tuple[int, int], focal_px: float) -> Array:
    """Directions in the camera's frame: x right, y down, z away from it."""
    check_numbers(pixels=pixels)
    check_numbers(picture=picture, focal_px=focal_px, above=0)
    middle = np.array(picture, dtype=np.float64) / 2
    return np.column_stack([(pixels - middle) / focal_px, np.ones(len(pixels))])


def tilted_views(
    at: Array, picture: tuple[int, int], focal_px: float, tilt_degrees: float
) -> Iterator[View]:
    """Planes through what pixel ``at`` shows, one unit deep, tilted so far in all directions
    against the plane of the camera's picture."""
    check_numbers(at=at)
    check_numbers(picture=picture, focal_px=focal_px, above=0)
    check_numbers(tilt_degrees=tilt_degrees, low=0, below=90)
    toward = rays(at[None, :], picture, focal_px)[0]
    for way in range(_WAYS if tilt_degrees else 1):
        normal = _tilted(tilt_degrees, 2 * math.pi * way / _WAYS)
        yield _facing(normal, toward, picture, focal_px)


def _tilted(degrees: float, way: float) -> Array:
    t = math.radians(degrees)
    across = math.sin(t)
    return np.array([across * math.cos(way), across * math.sin(way), -math.cos(t)])


def basis(normal: Array) -> tuple[Array, Array]:
    """Two directions at right angles in the plane, the first along x as far as it can."""
    check_numbers(normal=normal)
    first = np.array([1.0, 0.0, 0.0]) - normal * normal[0]
    first /= np.linalg.norm(first)
    return first, np.cross(normal, first)


def _facing(normal: Array, through: Array, picture: tuple[int, int], focal_px: float) -> View:
    first, second = basis(normal)
    frame = np.column_stack([first, second, normal])
    height = float(normal @ through)

    def plane(pixels: Array) -> Array:
        towards = rays(pixels, picture, focal_px)
        points = towards * (height / (towards @ normal))[:, None]
        flat: Array = (points - through) @ frame[:, :2]
        return flat

    return View(plane, -through @ frame)
