"""What a care sheet says, in plain words: the template only arranges it."""

from dataclasses import dataclass, field
from typing import TypeVar

from clinic.documents.patient_language.localised import Localised
from clinic.documents.shared import Contact, Who
from clinic.visits.presenters.clockface import Face

T = TypeVar("T")


@dataclass(frozen=True)
class Line:
    """One thing to use. ``news``: how it differs from what is worn now, "" where it says so."""

    words: str
    news: str = ""


@dataclass(frozen=True)
class Use:
    """Everything of one kind to use, such as all that makes up the barrier."""

    label: str
    lines: tuple[Line, ...]


@dataclass(frozen=True)
class Step:
    """One step of the change. ``picture`` names a drawing of ``static/drawings``, "" for none;
    ``shows``: what is seen on it."""

    words: str
    picture: str = ""
    shows: str = ""


@dataclass(frozen=True)
class Mark:
    """One mark on the clock face and what it means."""

    number: str
    words: str


@dataclass(frozen=True)
class Group:
    """Lines under one heading, such as everything that means *call the same day*."""

    title: str
    lines: tuple[str, ...]
    key: str = ""


@dataclass(frozen=True)
class Emergency:
    """What to do now, and what keeps things safe on the way. It replaces the whole plan."""

    title: str
    lines: tuple[str, ...]
    meanwhile: tuple[str, ...] = ()


@dataclass(frozen=True)
class NextVisit:
    """``day`` is "" where none is planned."""

    day: str
    why: str


#: The key of the group that comes first, in a row of its own.
MOST_URGENT = "emergency"
#: Identifiers longer than this take two lines at the head of a page (measured at 14 and 18 pt).
LONG_HEAD = 74


def _rows(things: tuple[T, ...], across: int) -> tuple[tuple[T, ...], ...]:
    """``things`` in rows of ``across``; the last row may hold fewer."""
    return tuple(things[at : at + across] for at in range(0, len(things), across))


@dataclass(frozen=True)
class Sheet(Localised):
    """One stoma at one visit, for the person who wears the pouch."""

    who: Who
    contact: Contact
    visit_day: str
    stoma: str
    large: bool
    signed: bool
    emergency: Emergency | None = None
    look_at: tuple[Group, ...] = ()
    keep: str = ""
    uses: tuple[Use, ...] = ()
    again: str = ""
    steps: tuple[Step, ...] = ()
    skin: str = ""
    size: str = ""
    marks: tuple[Mark, ...] = ()
    face: Face | None = field(default=None, compare=False)
    call: tuple[Group, ...] = ()
    #: That the part above comes before the list of calls; "" where nothing does.
    call_after: str = ""
    next_visit: NextVisit | None = None
    #: A code of ``SheetLanguage``.
    language: str = "en"
    #: Who read this translation over; "" while no one has, and for English.
    reviewer: str = ""

    @property
    def call_rows(self) -> tuple[tuple[Group, ...], ...]:
        """Groups of calls, side by side; the most urgent has its row alone."""
        most = tuple(group for group in self.call if group.key == MOST_URGENT)
        others = tuple(group for group in self.call if group.key != MOST_URGENT)
        return (*_rows(most, 1), *_rows(others, 1 if self.large else 2))

    @property
    def head(self) -> str:
        """How much room the identifiers need on top of every page after the first."""
        told = f"{self.who.name} {self.translator.translate('Born {day}', day=self.who.born)}"
        number = self.translator.translate("Record {number}", number=self.who.record_number)
        lines = self.large + (len(f"{told} {number}") > LONG_HEAD)
        return ("low", "tall", "tallest")[lines]
