"""The days a lead asks about, both of them included."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from django.utils import timezone

from clinic import formatting


@dataclass(frozen=True)
class Period:
    """From ``since`` to ``until``, whole days of the clinic's own time."""

    since: date
    until: date

    @classmethod
    def last_twelve_months(cls, today: date) -> Period:
        """A year up to and with ``today``; the year before began the day after a year ago.

        >>> str(Period.last_twelve_months(date(2024, 2, 29)).since)
        '2023-03-01'
        >>> Period.last_twelve_months(date(2026, 5, 10)).words
        '11 May 2025 to 10 May 2026'
        """
        leap = (today.month, today.day) == (2, 29)
        a_year_ago = today.replace(year=today.year - 1, day=28 if leap else today.day)
        return cls(a_year_ago + timedelta(days=1), today)

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
        return f"{formatting.day(self.since)} to {formatting.day(self.until)}"


def _midnight(day: date) -> datetime:
    return datetime.combine(day, time.min, timezone.get_current_timezone())
