"""Hours of the clock face round the stoma.

The face is seen by the clinician facing the patient: 12 towards the head, 3 towards the
patient's left, 6 towards the feet, 9 towards the patient's right (common practice, no source).
Hour ``h`` stands for the 30 degree sector centred on ``30 * h`` degrees clockwise from 12.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Final

HOURS: Final = tuple(range(1, 13))
SECTOR_DEGREES: Final = 30.0

#: Correction of the mean resultant length for grouping into 12 sectors,
#: c = (pi/k) / sin(pi/k) with k = 12 (Zar, Biostatistical Analysis, 5th ed., ch. 26).
GROUPING_CORRECTION: Final = (math.pi / 12) / math.sin(math.pi / 12)

#: A resultant shorter than this is rounding noise: the mean direction is undefined.
_NO_DIRECTION: Final = 1e-9


def hour_after(hour: int, steps: int = 1) -> int:
    """The hour ``steps`` clockwise of ``hour`` (negative: anticlockwise)."""
    return (hour - 1 + steps) % 12 + 1


def degrees(hour: float) -> float:
    """Degrees clockwise from 12 o'clock, 0 <= d < 360."""
    return (hour * SECTOR_DEGREES) % 360.0


@dataclass(frozen=True, slots=True)
class ClockHours:
    """A set of hours 1-12 on the face. Immutable, ordered from 1 to 12.

    Raises ``ValueError`` for anything that is not a whole hour from 1 to 12.
    """

    hours: frozenset[int] = frozenset()

    def __post_init__(self) -> None:
        wrong = sorted((h for h in self.hours if type(h) is not int or not 1 <= h <= 12), key=repr)
        if wrong:
            raise ValueError(f"Clock hours run from 1 to 12, not {wrong[0]!r}.")

    # --- making one ------------------------------------------------------------------------
    @classmethod
    def of(cls, *hours: int) -> ClockHours:
        """The named hours."""
        return cls(frozenset(hours))

    @classmethod
    def all_round(cls) -> ClockHours:
        """All twelve hours."""
        return cls(frozenset(HOURS))

    @classmethod
    def arc(cls, first: int, last: int) -> ClockHours:
        """Clockwise from ``first`` to ``last``, both included: ``arc(10, 2)`` is 10-11-12-1-2."""
        cls.of(first, last)
        return cls(frozenset(hour_after(first, i) for i in range((last - first) % 12 + 1)))

    @classmethod
    def union(cls, sets: Iterable[ClockHours]) -> ClockHours:
        """Every hour that any of ``sets`` holds."""
        return cls(frozenset().union(*(s.hours for s in sets)))

    # --- set behaviour ---------------------------------------------------------------------
    def __iter__(self) -> Iterator[int]:
        return iter(sorted(self.hours))

    def __len__(self) -> int:
        return len(self.hours)

    def __contains__(self, hour: object) -> bool:
        return hour in self.hours

    def __or__(self, other: ClockHours) -> ClockHours:
        return ClockHours(self.hours | other.hours)

    def __and__(self, other: ClockHours) -> ClockHours:
        return ClockHours(self.hours & other.hours)

    def __sub__(self, other: ClockHours) -> ClockHours:
        return ClockHours(self.hours - other.hours)

    def complement(self) -> ClockHours:
        """The hours not in this set."""
        return ClockHours.all_round() - self

    # --- turning and mirroring -------------------------------------------------------------
    def rotated(self, steps: int) -> ClockHours:
        """Turned clockwise by ``steps`` hours."""
        return ClockHours(frozenset(hour_after(h, steps) for h in self.hours))

    def opposite(self) -> ClockHours:
        """The hours straight across the stoma."""
        return self.rotated(6)

    def mirrored(self) -> ClockHours:
        """Left and right exchanged: 3 becomes 9; 12 and 6 stay."""
        return ClockHours(frozenset(12 - h or 12 for h in self.hours))

    def widened(self, by: int = 1) -> ClockHours:
        """With ``by`` more hours on either side of every hour."""
        return _widened(self, by)

    # --- shape -----------------------------------------------------------------------------
    @property
    def coverage(self) -> float:
        """Share of the circle, 0 to 1."""
        return len(self.hours) / 12

    def arcs(self) -> tuple[tuple[int, int], ...]:
        """Unbroken runs as (first, last) clockwise; all twelve hours give ((12, 11),)."""
        if len(self.hours) == 12:
            return ((12, 11),)
        firsts = [h for h in self if hour_after(h, -1) not in self.hours]
        return tuple((first, self._end_of_run(first)) for first in firsts)

    def _end_of_run(self, hour: int) -> int:
        while hour_after(hour) in self.hours:
            hour = hour_after(hour)
        return hour

    # --- circular statistics (each painted hour counts once) -------------------------------
    def _resultant(self) -> complex:
        if not self.hours:
            return 0j
        unit = (cmath.rect(1.0, math.radians(degrees(h))) for h in self)
        return sum(unit, 0j) / len(self.hours)

    @property
    def mean_hour(self) -> float | None:
        """Circular mean, 0 < hour <= 12; None where there is no direction (none, all, opposed)."""
        resultant = self._resultant()
        if abs(resultant) < _NO_DIRECTION:
            return None
        hour = math.degrees(cmath.phase(resultant)) / SECTOR_DEGREES % 12
        return hour if hour > _NO_DIRECTION else 12.0

    @property
    def concentration(self) -> float:
        """Mean resultant length corrected for grouping into 12 sectors, 0 (even) to 1.

        Source: Zar, Biostatistical Analysis, 5th ed., ch. 26; the corrected length of a single
        hour would pass 1 and is held there.
        """
        length = abs(self._resultant())
        return 0.0 if length < _NO_DIRECTION else min(1.0, length * GROUPING_CORRECTION)

    # --- words -----------------------------------------------------------------------------
    def words(self) -> str:
        """As a clinician says it: ``4 to 8 o'clock``, ``12 o'clock``, ``all round``, ``none``."""
        return _in_words(self)

    def placed(self) -> str:
        """To go straight after what lies there: `` at 4 to 8 o'clock``, `` all round``, or ""
        where no hour is known."""
        if not self.hours:
            return ""
        return f" {self.words()}" if len(self.hours) == 12 else f" at {self.words()}"

    def __str__(self) -> str:
        return self.words()


#: No hour at all.
NOWHERE: Final = ClockHours()

#: Where effluent falls and pools in a person sitting or standing: roughly 4 to 8 o'clock
#: (lower-half predominance: Emergency Management of the Hi-Tech Patient; hours from memory).
LOWEST_HOURS: Final = ClockHours.arc(4, 8)


# Worked out once: there are only 4,096 sets of hours, and most plans ask a few many times.
@cache
def _widened(hours: ClockHours, by: int) -> ClockHours:
    return ClockHours.union(hours.rotated(i) for i in range(-by, by + 1))


@cache
def _in_words(hours: ClockHours) -> str:
    if not hours:
        return "none"
    if len(hours) == 12:
        return "all round"
    runs = [f"{a}" if a == b else f"{a} to {b}" for a, b in hours.arcs()]
    return " and ".join(filter(None, [", ".join(runs[:-1]), runs[-1]])) + " o'clock"
