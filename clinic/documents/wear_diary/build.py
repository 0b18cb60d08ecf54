"""The wear diary: one month on one page, to be filled in at home and typed in at the next visit.

Its columns and letters are those of the wear log: on, off, why (p, l, i, f). It is built of
``Unsaid`` and printed as ``str`` (``patient_language.said``).
"""

from __future__ import annotations

from calendar import monthrange
from dataclasses import dataclass, replace
from datetime import date
from math import ceil
from typing import Generic

from clinic.documents.patient_language.lay_terms import MONTH, MONTHS
from clinic.documents.patient_language.localised import Localised
from clinic.documents.patient_language.unsaid import Phrase, Unsaid, W
from clinic.documents.shared import Contact, Who, contact, stoma_words, who
from clinic.patients.models import Stoma
from clinic.visits.choices import RemovalReason

#: Letter and plain words of every reason, in the order of the boxes. The letters are those the
#: wear log reads, in every language.
REASONS = {
    RemovalReason.PLANNED: ("p", "Planned", "It was time to change it, and all was well."),
    RemovalReason.LEAK: ("l", "Leak", "It leaked: under the barrier, or out onto your clothes."),
    RemovalReason.ITCH_OR_PAIN: ("i", "Itch or pain", "Your skin itched, burned or hurt."),
    RemovalReason.FELL_OFF: ("f", "Fell off", "It came off by itself."),
}
#: Context of the catalogue, and what it calls the days of the week in a narrow column.
SHORT_WEEKDAY = "short weekday"
SHORT_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
#: A name's letters to a line, and the lines the taller head has room for, by large print or not.
LETTERS_A_LINE = {False: 44, True: 34}
TALL_LINES = {False: 2, True: 1}


@dataclass(frozen=True)
class Day(Generic[W]):
    """One pre-printed day; ``weekend`` is drawn with a heavier line above it on Mondays only."""

    name: W
    number: int
    week_starts: bool


@dataclass(frozen=True)
class Reason(Generic[W]):
    """One letter of the last column and what it means."""

    letter: str
    name: W
    words: W


@dataclass(frozen=True)
class Diary(Localised, Generic[W]):
    """One stoma, one month. ``first`` and ``second``: the days in two columns."""

    who: Who[W]
    contact: Contact[W]
    stoma: W
    month: W
    paper: str
    large: bool
    first: tuple[Day[W], ...]
    second: tuple[Day[W], ...]
    reasons: tuple[Reason[W], ...]

    @property
    def letters(self) -> tuple[str, ...]:
        return tuple(reason.letter for reason in self.reasons)

    @property
    def page(self) -> str:
        """Name of the page: how much room the head needs."""
        lines = ceil(len(self.who.name) / LETTERS_A_LINE[self.large])
        height = "tall" if self.large else "low" if lines == 1 else "middle"
        return f"{self.paper}-{'tallest' if lines > TALL_LINES[self.large] else height}"


def diary(stoma: Stoma, *, month: date, paper: str, large: bool) -> Diary[Unsaid]:
    """``month``: any day of it. ``paper``: a4 or letter."""
    days = days_of(month)
    half = (len(days) + 1) // 2
    return Diary(
        who=who(stoma.patient),
        # When we are open is not on it.
        contact=replace(contact(), hours=""),
        stoma=stoma_words(stoma),
        month=month_words(month),
        paper=paper,
        large=large,
        first=days[:half],
        second=days[half:],
        reasons=tuple(
            Reason(letter, Phrase(name), Phrase(words)) for letter, name, words in REASONS.values()
        ),
    )


def month_words(month: date) -> Unsaid:
    """A month with its year, such as *December 2026*."""
    name = Phrase(MONTHS[month.month - 1], MONTH)
    return Phrase.of("{month} {year}", month=name, year=month.year)


def days_of(month: date) -> tuple[Day[Unsaid], ...]:
    """Every day of the month, as printed."""
    last = monthrange(month.year, month.month)[1]
    names = [Phrase(name, SHORT_WEEKDAY) for name in SHORT_WEEKDAYS]
    every = (month.replace(day=number) for number in range(1, last + 1))
    return tuple(Day(names[one.weekday()], one.day, one.weekday() == 0) for one in every)


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
