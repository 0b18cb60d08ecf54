"""The months a lead asks about, both of them included.

Whole months only: two ranges a day apart would tell of the patient seen on that day.
"""

from __future__ import annotations

from calendar import monthrange
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from django.utils import timezone

from clinic import formatting
from clinic.dates import MONTHS


@dataclass(frozen=True)
class Period:
    """From ``since`` to ``until``, whole days of the clinic's own time: the first of a month to
    the last of one, or to today where that month still goes on."""

    since: date
    until: date

    @classmethod
    def of_months(cls, first: date, last: date, today: date) -> Period:
        """The months of ``first`` to ``last``, as far as they have passed.

        >>> Period.of_months(date(2025, 1, 9), date(2025, 2, 1), date(2026, 5, 10)).words
        'Jan 2025 to Feb 2025'
        >>> Period.of_months(date(2026, 5, 1), date(2026, 5, 1), date(2026, 5, 10)).words
        'May 2026, which counts up to today, 10 May 2026'
        """
        return cls(first.replace(day=1), min(_end_of(last), today))

    @classmethod
    def usual(cls, today: date) -> Period:
        """The last twelve whole months, and the current one.

        >>> Period.usual(date(2024, 2, 28)).words
        'Feb 2023 to Feb 2024, which counts up to today, 28 Feb 2024'
        """
        return cls.of_months(today.replace(year=today.year - 1, day=1), today, today)

    @property
    def begins(self) -> datetime:
        """The first moment of it."""
        return _midnight(self.since)

    @property
    def ends(self) -> datetime:
        """The first moment after it."""
        return _midnight(self.until + timedelta(days=1))

    @property
    def words(self) -> str:
        one = (self.since.year, self.since.month) == (self.until.year, self.until.month)
        said = month(self.since) if one else f"{month(self.since)} to {month(self.until)}"
        if self.until == _end_of(self.until):
            return said
        return f"{said}, which counts up to today, {formatting.day(self.until)}"


def month(day: date) -> str:
    """As months are typed and shown: ``Feb 2026``."""
    return f"{MONTHS[day.month - 1].capitalize()} {day.year}"


def _end_of(day: date) -> date:
    return day.replace(day=monthrange(day.year, day.month)[1])


def _midnight(day: date) -> datetime:
    return datetime.combine(day, time.min, timezone.get_current_timezone())
