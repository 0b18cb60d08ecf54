"""Which days the clinic is closed, why, and the open days round one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from clinic import formatting
from clinic.clinic_details.current import current
from clinic.clinic_details.models import Holiday

#: How far an open day is looked for: longer than a clinic is ever closed.
LOOKED_AT = timedelta(days=60)
ONE = timedelta(days=1)


@dataclass(frozen=True)
class ClosedDays:
    """Closed weekdays (0 is Monday), and holidays by their day."""

    weekdays: frozenset[int]
    holidays: Mapping[date, str]

    def why(self, day: date) -> str:
        """Such as *closed on Saturdays* or *closed: New Year's Day*; "" where it is open."""
        if name := self.holidays.get(day):
            return f"closed: {name}"
        return f"closed on {day:%A}s" if day.weekday() in self.weekdays else ""

    def next_open(self, day: date) -> date | None:
        """``day``, or the first open day after it; None where none is near."""
        return self._open(day, ONE)

    def last_open(self, day: date) -> date | None:
        """``day``, or the last open day before it; None where none is near."""
        return self._open(day, -ONE)

    def _open(self, day: date, step: timedelta) -> date | None:
        for away in range(LOOKED_AT.days + 1):
            try:
                looked_at = day + away * step
            except OverflowError:  # the ends of the calendar
                return None
            if not self.why(looked_at):
                return looked_at
        return None


def closed_days_round(day: date) -> ClosedDays:
    """What is closed within ``LOOKED_AT`` of ``day``: two queries."""
    first = max(day, date.min + LOOKED_AT) - LOOKED_AT
    last = min(day, date.max - LOOKED_AT) + LOOKED_AT
    rows = Holiday.objects.filter(day__range=(first, last)).values_list("day", "name")
    return ClosedDays(frozenset(current().closed_weekdays), dict(rows))


def closed_among(days: Iterable[date]) -> dict[date, str]:
    """Those of ``days`` on which the clinic is closed, and why: two queries."""
    asked = set(days)
    rows = Holiday.objects.filter(day__in=asked).values_list("day", "name")
    closed = ClosedDays(frozenset(current().closed_weekdays), dict(rows))
    return {day: why for day in asked if (why := closed.why(day))}


def closed_words(day: date) -> str:
    """Why no one can be asked to come on ``day``, as a sentence; "" where the clinic is open."""
    return as_sentence(closed_days_round(day).why(day))


def as_sentence(why: str) -> str:
    """Of a reason such as ``closed_among`` gives; "" of none."""
    return f"The clinic is {why.replace('closed:', 'closed that day:')}." if why else ""


def closed_sentence(day: date) -> str:
    """The same with the day in it."""
    why = closed_days_round(day).why(day)
    return f"{day:%A}, {formatting.day(day)}: the clinic is {why}." if why else ""
