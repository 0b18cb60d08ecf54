"""Synthetic photos of known size: shapes on a plane before a pinhole camera. Lengths in mm."""

from __future__ import annotations

import io
import math
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt
from PIL import Image, ImageDraw

Array = npt.NDArray[np.float64]
SIZE = (1600, 1200)
SKIN, STOMA, PLASTIC = (222, 184, 160), (178, 48, 52), (60, 90, 150)
CARD_MM = (85.60, 53.98)  # ISO/IEC 7810, format ID-1


@dataclass(frozen=True)
class Camera:
    """Looks at the plane's origin from ``far`` mm, tilted by ``tilt`` degrees about an axis that
    lies ``axis`` degrees from x, then turned by ``turned`` degrees clockwise; ``focal`` in pixels.
    """

    far: float = 400.0
    tilt: float = 0.0
    axis: float = 0.0
    turned: float = 0.0
    focal: float = 3000.0

    def pixels(self, points: Array, level: float = 0.0) -> Array:
        """Of points (x, y) of the plane, y up; ``level`` mm above it."""
        return self.of_space(np.column_stack([points, np.full(len(points), level)]))

    def of_space(self, points: Array) -> Array:
        """Of points (x, y, z), z towards a camera straight above."""
        q = points @ self._turn().T
        depth = self.far - q[:, 2]
        return np.column_stack(
            [
                SIZE[0] / 2 + self.focal * q[:, 0] / depth,
                SIZE[1] / 2 - self.focal * q[:, 1] / depth,
            ]
        )

    def _turn(self) -> Array:
        t, a = math.radians(self.tilt), math.radians(self.axis)
        lean = np.array([[1, 0, 0], [0, math.cos(t), -math.sin(t)], [0, math.sin(t), math.cos(t)]])
        return _round_z(-math.radians(self.turned) + a) @ lean @ _round_z(-a)


def _round_z(angle: float) -> Array:
    c, s = math.cos(angle), math.sin(angle)
    return np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]])


def oval(
    length: float, width: float, bearing: float = 0.0, *, lobes: tuple[float, ...] = (), n: int = 24
) -> Array:
    """``n`` points clockwise from 12 o'clock; ``lobes``: share of the radius by which it waves
    thrice, four times … round, to make it irregular."""
    a, b = length / 2, width / 2
    t = 2 * math.pi * np.arange(n) / n
    s = t - math.radians(bearing)
    r = a * b / np.hypot(b * np.cos(s), a * np.sin(s))
    for k, share in enumerate(lobes, start=3):
        r = r * (1 + share * np.cos(k * t + k))
    return np.column_stack([r * np.sin(t), r * np.cos(t)])


def card_at(x: float, y: float, turned: float = 0.0) -> Array:
    """Corners of a card round (x, y)."""
    w, h = CARD_MM[0] / 2, CARD_MM[1] / 2
    return _placed(np.array([(-w, h), (w, h), (w, -h), (-w, -h)]), x, y, turned)


def line_at(x: float, y: float, length: float, turned: float = 0.0) -> Array:
    """Both ends of a ruler round (x, y)."""
    return _placed(np.array([(-length / 2, 0.0), (length / 2, 0.0)]), x, y, turned)


def _placed(points: Array, x: float, y: float, turned: float) -> Array:
    placed: Array = points @ _round_z(-math.radians(turned))[:2, :2].T + np.array([x, y])
    return placed


@dataclass(frozen=True)
class Belly:
    """Touches the plane at the origin, where the stoma is, and bends away below it; ``along`` is
    the direction of a cylinder's axis in degrees from x, None a ball."""

    radius: float
    along: float | None = None

    def of(self, points: Array) -> Array:
        """(x, y) as measured along the skin -> (x, y, z)."""
        axis = np.zeros(2)
        if self.along is not None:
            axis = np.array(
                [math.cos(math.radians(self.along)), math.sin(math.radians(self.along))]
            )
        straight = (points @ axis)[:, None] * axis
        bent = points - straight
        far = np.hypot(bent[:, 0], bent[:, 1])
        angle = far / self.radius
        share = self.radius * np.sin(angle) / np.where(far > 0, far, 1.0)
        return np.column_stack(
            [straight + bent * share[:, None], self.radius * (np.cos(angle) - 1)]
        )


def lying_on(
    belly: Belly, local: Array, at: tuple[float, float], turned: float, height: float
) -> Array:
    """Something stiff, (x, y) from its middle: it touches the belly ``at`` there, turned so many
    degrees anticlockwise, ``height`` mm above the skin."""
    step = 1e-4
    place, right, up = belly.of(np.array([at, (at[0] + step, at[1]), (at[0], at[1] + step)]))
    normal = np.cross(right - place, up - place)
    normal /= np.linalg.norm(normal)
    t = math.radians(turned)
    first = (right - place) * math.cos(t) + (up - place) * math.sin(t)
    first -= normal * (first @ normal)
    first /= np.linalg.norm(first)
    frame = np.array([first, np.cross(normal, first)])
    laid: Array = place + normal * height + local @ frame
    return laid


def photo(camera: Camera, stoma: Array, card: Array, **save: Any) -> bytes:
    """A JPEG of a stoma and a card on skin."""
    picture = Image.new("RGB", SIZE, SKIN)
    pen = ImageDraw.Draw(picture)
    for shape, colour in ((card, PLASTIC), (stoma, STOMA)):
        pen.polygon([(float(x), float(y)) for x, y in camera.pixels(shape)], fill=colour)
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=90, **save)
    return out.getvalue()
