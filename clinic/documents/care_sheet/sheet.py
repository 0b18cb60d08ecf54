"""What a care sheet says, in plain words: the template only arranges it.

It is built of ``Unsaid`` and printed as ``str`` (``patient_language.said``).
"""

from dataclasses import dataclass, field, replace
from typing import Generic, TypeVar

from clinic.documents.patient_language.localised import Localised
from clinic.documents.patient_language.unsaid import W
from clinic.documents.shared import Contact, Who
from clinic.visits.presenters.clockface import Face

T = TypeVar("T")


@dataclass(frozen=True)
class Line(Generic[W]):
    """One thing to use. ``news``: how it differs from what is worn now, "" where it says so."""

    words: W
    news: W | str = ""


@dataclass(frozen=True)
class Use(Generic[W]):
    """Everything of one kind to use, such as all that makes up the barrier."""

    label: W
    lines: tuple[Line[W], ...]


@dataclass(frozen=True)
class Step(Generic[W]):
    """One step of the change. ``picture`` names a drawing of ``static/drawings``, "" for none;
    ``shows``: what is seen on it."""

    words: W
    picture: str = ""
    shows: W | str = ""


@dataclass(frozen=True)
class Mark(Generic[W]):
    """One mark on the clock face and what it means."""

    number: str
    words: W


@dataclass(frozen=True)
class Group(Generic[W]):
    """Lines under one heading, such as everything that means *call the same day*."""

    title: W
    lines: tuple[W, ...]
    key: str = ""


@dataclass(frozen=True)
class Emergency(Generic[W]):
    """What to do now, and what keeps things safe on the way. It replaces the whole plan."""

    title: W
    lines: tuple[W, ...]
    meanwhile: tuple[W, ...] = ()


@dataclass(frozen=True)
class NextVisit(Generic[W]):
    """``day`` is "" where none is planned, ``time`` where none is agreed."""

    day: W | str
    why: W
    time: str = ""


#: The key of the group that comes first, in a row of its own.
MOST_URGENT = "emergency"


def _rows(things: tuple[T, ...], across: int) -> tuple[tuple[T, ...], ...]:
    """``things`` in rows of ``across``; the last row may hold fewer."""
    return tuple(things[at : at + across] for at in range(0, len(things), across))


@dataclass(frozen=True)
class Sheet(Localised, Generic[W]):
    """One stoma at one visit, for the person who wears the pouch."""

    who: Who[W]
    contact: Contact[W]
    visit_day: W
    stoma: W
    large: bool
    signed: bool
    emergency: Emergency[W] | None = None
    look_at: tuple[Group[W], ...] = ()
    keep: W | str = ""
    uses: tuple[Use[W], ...] = ()
    again: W | str = ""
    steps: tuple[Step[W], ...] = ()
    skin: W | str = ""
    size: W | str = ""
    marks: tuple[Mark[W], ...] = ()
    face: Face | None = field(default=None, compare=False)
    #: The face and its marks in words, for people who cannot see it.
    face_words: W | str = ""
    call: tuple[Group[W], ...] = ()
    #: That the part above comes before the list of calls; "" where nothing does.
    call_after: W | str = ""
    next_visit: NextVisit[W] | None = None

    @property
    def call_rows(self) -> tuple[tuple[Group[W], ...], ...]:
        """Groups of calls, side by side; the most urgent has its row alone."""
        most = tuple(group for group in self.call if group.key == MOST_URGENT)
        others = tuple(group for group in self.call if group.key != MOST_URGENT)
        return (*_rows(most, 1), *_rows(others, 1 if self.large else 2))

    @property
    def titled_face(self) -> Face | None:
        """For the screen: with its words inside the drawing."""
        return self.face and replace(self.face, title=str(self.face_words))
