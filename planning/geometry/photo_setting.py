"""What the nurse says about how a photo was taken, and how far each answer lets things be off.

The photo cannot tell these by itself: how high the reference lay above the skin, how rounded the
belly is and, with a straight reference, how askew the camera looked. Every bound below is a design
value with no source; it says how wide an answer is taken, not how things usually are.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Final


class Rounded(StrEnum):
    """The belly under the reference and the stoma."""

    FLAT = "flat"
    GENTLY = "gently"
    #: Also a bulge, and not known.
    STRONGLY = "strongly"


class Askew(StrEnum):
    """How far the camera's picture was from lying parallel to the skin."""

    STRAIGHT = "straight"
    SOMEWHAT = "somewhat"
    #: Also not known.
    STRONGLY = "strongly"


#: Least radius of the belly, mm (design values). Across 12 cm a straight edge leaves a gap
#: of about 2, 7 and 18 mm.
LEAST_RADIUS_MM: Final = {Rounded.FLAT: 1000.0, Rounded.GENTLY: 250.0, Rounded.STRONGLY: 100.0}

#: Most tilt of the camera, degrees (design values). Strongly askew measures nothing by a ruler.
MOST_TILT: Final = {Askew.STRAIGHT: 15.0, Askew.SOMEWHAT: 30.0}

#: Either way from the height that was given; what lies flat follows small folds (design value).
LEVEL_MM: Final = 3.0
#: A reference whose height is not known lies at most so far above the skin (design value).
HIGHEST_MM: Final = 20.0


@dataclass(frozen=True, slots=True)
class Setting:
    """``picture``: width and height of the whole picture, pixels; its middle is where the camera
    looked. ``raised_mm``: of the reference above the skin, 0 flat on it, None not known.
    ``askew`` is read with a straight reference alone; None is not known.
    """

    picture: tuple[int, int]
    raised_mm: float | None
    rounded: Rounded
    askew: Askew | None = None

    @property
    def heights(self) -> tuple[float, float]:
        """Least and most height of the reference above the skin, mm; negative lies below it."""
        if self.raised_mm is None:
            return -LEVEL_MM, HIGHEST_MM
        return self.raised_mm - LEVEL_MM, self.raised_mm + LEVEL_MM
