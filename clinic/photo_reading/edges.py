"""Where exactly an edge lies: the steepest change of colour across it, to a part of a pixel.

Its figures are design values, tried on painted photos.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import cv2
import numpy as np

from clinic.photo_reading.pixels import Floats, Points

#: Steps across an edge for each pixel.
_FINE: Final = 4
#: Softening along the line across, in pixels: above the grain of a photo, below a shadow's width.
_SOFT: Final = 1.2
#: Least change of colour across an edge (CIELAB units for each pixel) that counts as one.
LEAST_CHANGE: Final = 1.0
#: Share of its steepest place at which an edge still counts as going on.
_STILL: Final = 0.35


@dataclass(frozen=True)
class Met:
    """``at``: for each place the point of the edge; ``change`` how steep it is there; ``blurred``
    how far to either side, in pixels, it is on average still more than a third as steep: a shadow's
    rim beside the edge makes it wide."""

    at: Points
    change: Floats
    blurred: float


def met(lab: Floats, places: Points, across: Points, reach: float) -> Met:
    """The steepest change within ``reach`` pixels either way of ``places``, going ``across``."""
    count = 2 * max(2, round(reach * _FINE)) + 1
    steps = np.linspace(-reach, reach, count)
    step = 2 * reach / (count - 1)
    change = _changes(lab, places, across, steps) / step
    rows = np.arange(len(places))
    best = change[:, 1:-1].argmax(axis=1) + 1
    before, here, after = (change[rows, best + k] for k in (-1, 0, 1))
    bend = before - 2 * here + after
    shift = np.where(np.abs(bend) > 1e-9, 0.5 * (before - after) / np.where(bend, bend, 1), 0)
    far = steps[0] + (best + 0.5 + np.clip(shift, -0.5, 0.5)) * step
    return Met(
        places + across * far[:, None], here.astype(np.float32), _blurred(change.mean(axis=0), step)
    )


def _changes(lab: Floats, places: Points, across: Points, steps: Points) -> Floats:
    """How much the colour changes from each step to the next."""
    # Half a pixel: pictures count from a pixel's edge, sampling from its middle.
    x = (places[:, 0, None] + across[:, 0, None] * steps - 0.5).astype(np.float32)
    y = (places[:, 1, None] + across[:, 1, None] * steps - 0.5).astype(np.float32)
    # Beyond the picture its last pixels go on, so that its border is no edge.
    values = cv2.remap(lab, x, y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    soft = _SOFT / float(steps[1] - steps[0])
    channels = [
        cv2.GaussianBlur(channel, (0, 0), sigmaX=soft, sigmaY=0.01) for channel in cv2.split(values)
    ]
    changes: Floats = np.linalg.norm(np.diff(np.stack(channels, axis=2), axis=1), axis=2)
    return changes


def _blurred(profile: Floats, step: float) -> float:
    steep = profile - np.median(profile)
    most = int(steep.argmax())
    wide = np.flatnonzero(steep > _STILL * steep[most])
    return float(np.abs(wide - most).max()) * step
