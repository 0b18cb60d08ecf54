"""The wear diary: one month on one page, to be filled in at home and typed in at the next visit.

Its columns and letters are those of the wear log: on, off, why (p, l, i, f).
"""

from __future__ import annotations

from calendar import monthrange
from dataclasses import dataclass
from datetime import date
from math import ceil

from clinic.documents.care_sheet import contact, who
from clinic.documents.plain import SITES, long_day
from clinic.documents.sheet import Contact, Who
from clinic.patients.models import Site, Stoma, StomaKind
from clinic.visits.choices import RemovalReason

#: Letter and plain words of every reason, in the order of the boxes.
REASONS = {
    RemovalReason.PLANNED: ("p", "Planned", "It was time to change it, and all was well."),
    RemovalReason.LEAK: ("l", "Leak", "It leaked: under the barrier, or out onto your clothes."),
    RemovalReason.ITCH_OR_PAIN: ("i", "Itch or pain", "Your skin itched, burned or hurt."),
    RemovalReason.FELL_OFF: ("f", "Fell off", "It came off by itself."),
}
#: A name's letters to a line, and the lines the taller head has room for, by large print or not.
LETTERS_A_LINE = {False: 44, True: 34}
TALL_LINES = {False: 2, True: 1}


@dataclass(frozen=True)
class Day:
    """One pre-printed day; ``weekend`` is drawn with a heavier line above it on Mondays only."""

    name: str
    number: int
    week_starts: bool


@dataclass(frozen=True)
class Diary:
    """One stoma, one month. ``first`` and ``second``: the days in two columns."""

    who: Who
    contact: Contact
    stoma: str
    month: str
    paper: str
    large: bool
    first: tuple[Day, ...]
    second: tuple[Day, ...]

    @property
    def facts(self) -> tuple[str, ...]:
        return (self.stoma,)

    @property
    def reasons(self) -> tuple[tuple[str, str, str], ...]:
        return tuple(REASONS.values())

    @property
    def letters(self) -> tuple[str, ...]:
        return tuple(letter for letter, _, _ in REASONS.values())

    @property
    def page(self) -> str:
        """Name of the page: how much room the head needs."""
        lines = ceil(len(self.who.name) / LETTERS_A_LINE[self.large])
        height = "tall" if self.large else "low" if lines == 1 else "middle"
        return f"{self.paper}-{'tallest' if lines > TALL_LINES[self.large] else height}"


def diary(stoma: Stoma, *, month: date, paper: str, large: bool) -> Diary:
    """``month``: any day of it. ``paper``: a4 or letter."""
    kind, site = StomaKind(stoma.kind), SITES[Site(stoma.site)]
    days = days_of(month)
    half = (len(days) + 1) // 2
    return Diary(
        who=who(stoma.patient),
        contact=contact(),
        stoma=f"{kind.label}, {site}",
        month=long_day(month).split(" ", 1)[1],
        paper=paper,
        large=large,
        first=days[:half],
        second=days[half:],
    )


def days_of(month: date) -> tuple[Day, ...]:
    """Every day of the month, as printed.

    >>> [(day.name, day.number) for day in days_of(date(2024, 2, 1))][-1]
    ('Thu', 29)
    """
    last = monthrange(month.year, month.month)[1]
    every = (month.replace(day=number) for number in range(1, last + 1))
    return tuple(Day(f"{one:%a}", one.day, one.weekday() == 0) for one in every)


def next_month(day: date) -> date:
    """The first of the month after.

    >>> next_month(date(2026, 12, 31)), next_month(date(2026, 1, 31))
    (datetime.date(2027, 1, 1), datetime.date(2026, 2, 1))
    """
    return date(day.year + day.month // 12, day.month % 12 + 1, 1)


def month_of(text: str) -> date | None:
    """``2026-03`` as its first day; None for anything else.

    >>> month_of("2026-03"), month_of("2026-13"), month_of("2026-3"), month_of("1899-01")
    (datetime.date(2026, 3, 1), None, None, None)
    """
    try:
        first = date.fromisoformat(f"{text}-01") if len(text) == 7 else None
    except ValueError:
        return None
    return first if first and 1900 <= first.year <= 2200 else None
