"""Days under the time axis, with the month in letters."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from itertools import pairwise

from matplotlib.dates import num2date
from matplotlib.ticker import Formatter

#: Ticks closer than this (days) name the day, closer than a year the month.
MONTH = 27
YEAR = 360


class DayFormatter(Formatter):
    """``3 Mar``, ``Mar`` or ``2025`` by how far the ticks lie apart; the year below the first and
    wherever it changes."""

    def format_ticks(self, values: Sequence[float]) -> list[str]:
        """The words of every tick."""
        days = [num2date(value) for value in values]
        step = min((b - a for a, b in pairwise(values)), default=0)
        if step >= YEAR:
            return [f"{day.year}" for day in days]
        words = [_short(day, step) for day in days]
        return [
            f"{short}\n{day.year}" if number == 0 or day.year != days[number - 1].year else short
            for number, (short, day) in enumerate(zip(words, days, strict=True))
        ]

    def __call__(self, value: float, position: int | None = None) -> str:
        """One tick by itself."""
        return self.format_ticks([value])[0]


def _short(day: datetime, step: float) -> str:
    return f"{day:%b}" if step >= MONTH else f"{day.day} {day:%b}"
