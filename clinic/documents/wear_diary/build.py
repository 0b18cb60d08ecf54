"""The wear diary: one month on one page, to be filled in at home and typed in at the next visit.

Its columns and letters are those of the wear log: on, off, why (p, l, i, f).
"""

from __future__ import annotations

from calendar import monthrange
from dataclasses import dataclass, replace
from datetime import date
from math import ceil

from clinic.documents.patient_language.lay_terms import MONTH, MONTHS
from clinic.documents.patient_language.localised import Localised
from clinic.documents.patient_language.translator import ENGLISH, Translator, translator_for
from clinic.documents.shared import Contact, Who, contact, reviewer, stoma_words, who
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
class Day:
    """One pre-printed day; ``weekend`` is drawn with a heavier line above it on Mondays only."""

    name: str
    number: int
    week_starts: bool


@dataclass(frozen=True)
class Reason:
    """One letter of the last column and what it means."""

    letter: str
    name: str
    words: str


@dataclass(frozen=True)
class Diary(Localised):
    """One stoma, one month. ``first`` and ``second``: the days in two columns."""

    who: Who
    contact: Contact
    stoma: str
    month: str
    paper: str
    large: bool
    first: tuple[Day, ...]
    second: tuple[Day, ...]
    reasons: tuple[Reason, ...]
    #: A code of ``SheetLanguage``.
    language: str = "en"
    #: Who read this translation over; "" while no one has, and for English.
    reviewer: str = ""

    @property
    def letters(self) -> tuple[str, ...]:
        return tuple(reason.letter for reason in self.reasons)

    @property
    def page(self) -> str:
        """Name of the page: how much room the head needs."""
        lines = ceil(len(self.who.name) / LETTERS_A_LINE[self.large])
        height = "tall" if self.large else "low" if lines == 1 else "middle"
        return f"{self.paper}-{'tallest' if lines > TALL_LINES[self.large] else height}"


def diary(stoma: Stoma, *, month: date, paper: str, large: bool, language: str = "") -> Diary:
    """``month``: any day of it. ``paper``: a4 or letter. In the language of the patient's sheets
    unless another is named; raises ``ValueError`` for one there is none of."""
    translator = translator_for(language or stoma.patient.sheet_language)
    days = days_of(month, translator)
    half = (len(days) + 1) // 2
    return Diary(
        who=who(stoma.patient, translator),
        # When we are open is not on it.
        contact=replace(contact(translator), hours=""),
        stoma=stoma_words(stoma, translator),
        month=month_words(month, translator),
        paper=paper,
        large=large,
        first=days[:half],
        second=days[half:],
        reasons=tuple(
            Reason(letter, translator.translate(name), translator.translate(words))
            for letter, name, words in REASONS.values()
        ),
        language=translator.code,
        reviewer=reviewer(translator.code),
    )


def month_words(month: date, translator: Translator = ENGLISH) -> str:
    """A month with its year.

    >>> month_words(date(2026, 12, 5))
    'December 2026'
    """
    name = translator.translate(MONTHS[month.month - 1], MONTH)
    return translator.translate("{month} {year}", month=name, year=month.year)


def days_of(month: date, translator: Translator = ENGLISH) -> tuple[Day, ...]:
    """Every day of the month, as printed.

    >>> [(day.name, day.number) for day in days_of(date(2024, 2, 1))][-1]
    ('Thu', 29)
    """
    last = monthrange(month.year, month.month)[1]
    names = [translator.translate(name, SHORT_WEEKDAY) for name in SHORT_WEEKDAYS]
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
