"""The picture as numbers: unpacked once, no larger than allowed, in even steps of colour."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import cv2
import numpy as np
import numpy.typing as npt

Bytes = npt.NDArray[np.uint8]
Floats = npt.NDArray[np.float32]
Points = npt.NDArray[np.float64]

#: Pictures are stored no longer than 2400 pixels a side; a larger one is not looked at.
MOST_PIXELS: Final = 2400 * 2400
#: Things are looked for on a copy so long; their edges are then followed on the whole picture.
SEARCHED_SIDE: Final = 1000

# One request takes one processor.
cv2.setNumThreads(1)


class NotReadable(ValueError):  # noqa: N818 - said as it is
    """No picture, or one too large to be looked at."""


@dataclass(frozen=True)
class Seen:
    """``lab``: lightness and two colours (CIELAB, in units of its own scale); ``small`` the same,
    smaller by ``scale``."""

    lab: Floats
    small: Floats
    scale: float

    @property
    def size(self) -> tuple[int, int]:
        """Width and height, pixels."""
        return self.lab.shape[1], self.lab.shape[0]


def unpacked(image: bytes) -> Bytes:
    """The pixels, blue first. Raises ``NotReadable``."""
    data = np.frombuffer(image, dtype=np.uint8)
    try:
        # Turning was done when the picture was taken in; what it says of itself counts no more.
        found = cv2.imdecode(data, cv2.IMREAD_COLOR | cv2.IMREAD_IGNORE_ORIENTATION)
    except cv2.error as error:
        raise NotReadable from error
    if found is None:
        raise NotReadable
    return np.asarray(found, dtype=np.uint8)


def seen(pixels: Bytes) -> Seen:
    """Raises ``NotReadable`` for a picture too large, or too small to hold anything."""
    high, wide = pixels.shape[:2]
    if high * wide > MOST_PIXELS or min(high, wide) < 100:
        raise NotReadable
    lab = cv2.cvtColor(pixels.astype(np.float32) / 255, cv2.COLOR_BGR2LAB)
    scale = max(1.0, max(high, wide) / SEARCHED_SIDE)
    small = lab
    if scale > 1:
        size = round(wide / scale), round(high / scale)
        small = cv2.resize(lab, size, interpolation=cv2.INTER_AREA)
    return Seen(np.asarray(lab, np.float32), np.asarray(small, np.float32), scale)
