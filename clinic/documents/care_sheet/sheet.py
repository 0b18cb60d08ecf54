"""What a care sheet says, in plain words: the template only arranges it.

It is built of ``Unsaid`` and printed as ``str`` (``patient_language.said``).
"""

from dataclasses import dataclass, field, replace
from itertools import takewhile
from typing import Generic, TypeVar

from clinic.documents.patient_language.localised import Localised
from clinic.documents.patient_language.unsaid import W
from clinic.documents.shared import Contact, Who
from clinic.visits.presenters.clockface import Face

T = TypeVar("T")
#: How a line or a step differs from what is done now; "" where it does not. Also its class on
#: the page.
NEW, CHANGED, LEAVE_OFF = "new", "changed", "leave-off"


@dataclass(frozen=True)
class Line(Generic[W]):
    """One thing to use. ``news``: how it differs from what is worn now, "" where it says so;
    ``mark``: the same as a code, "" for what stays."""

    words: W
    news: W | str = ""
    mark: str = ""


@dataclass(frozen=True)
class Use(Generic[W]):
    """Everything of one kind to use, such as all that makes up the barrier. ``advice``: to keep
    in mind, no thing to use."""

    label: W
    lines: tuple[Line[W], ...]
    advice: bool = False


@dataclass(frozen=True)
class Step(Generic[W]):
    """One step of the change. ``picture`` names a drawing of ``static/drawings``, "" for none;
    ``shows``: what is seen on it. ``news`` and ``mark`` as of a ``Line``."""

    words: W
    picture: str = ""
    shows: W | str = ""
    news: W | str = ""
    mark: str = ""
    #: Done as before, and on the sheet of the visit before.
    known: bool = False


@dataclass(frozen=True)
class News(Generic[W]):
    """One change of today: what kind of thing, and the line about it."""

    label: W
    line: Line[W]


@dataclass(frozen=True)
class PlacedStep(Generic[W]):
    """A step and how it is set: ``after`` so many steps without a drawing lie beside its own."""

    step: Step[W]
    after: int

    @property
    def styles(self) -> str:
        """Its classes on the page."""
        drawn = f"drawn beside-{self.after}" if self.step.picture else ""
        marked = "marked" if self.step.mark else ""
        known = "known" if self.step.known else ""
        return " ".join(filter(None, (drawn, marked, known)))


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


def _words_alone(steps: tuple[Step[W], ...], *, marked: bool) -> int:
    """How many of the first two steps have no drawing, one after the other."""

    def fits(step: Step[W]) -> bool:
        return not step.picture and bool(step.mark) == marked

    return len(tuple(takewhile(fits, steps[:2])))


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
    #: That nothing changes in what is used; "" where something does, or nothing is known of it.
    unchanged: W | str = ""
    uses: tuple[Use[W], ...] = ()
    again: W | str = ""
    steps: tuple[Step[W], ...] = ()
    #: For somebody who changes alone and well: of the steps only what is different today.
    only_changes: bool = False
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
    def changes(self) -> tuple[News[W], ...]:
        """What is new, changed or left off from today, in the order of the kinds."""
        return tuple(News(use.label, line) for use in self.uses for line in use.lines if line.mark)

    @property
    def unmarked(self) -> tuple[Use[W], ...]:
        """What stays as it is, and what to keep in mind."""
        rows = (
            replace(use, lines=tuple(line for line in use.lines if not line.mark))
            for use in self.uses
        )
        return tuple(use for use in rows if use.lines)

    @property
    def placed_steps(self) -> tuple[PlacedStep[W], ...]:
        """Each step with how many of the next lie beside its drawing: at most two, none with a
        drawing of its own, and all marked or none."""
        return tuple(
            PlacedStep(step, _words_alone(self.steps[place + 1 :], marked=bool(step.mark)))
            for place, step in enumerate(self.steps)
        )

    @property
    def has_changed_steps(self) -> bool:
        """Whether any step is news."""
        return any(step.mark for step in self.steps)

    @property
    def drawn(self) -> bool:
        """Whether any step has a drawing, so that drawings have a column of their own."""
        return any(step.picture for step in self.steps)

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
