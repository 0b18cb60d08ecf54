"""What a care sheet says, in plain words: the template only arranges it."""

from dataclasses import dataclass, field

from clinic.visits.presenters.clockface import Face


@dataclass(frozen=True)
class Who:
    """Whose sheet: two identifiers and the record number, on every page."""

    name: str
    born: str
    record_number: str


@dataclass(frozen=True)
class Contact:
    """How to reach the clinic; "" is printed as a line to write on."""

    clinic: str
    phone: str
    hours: str
    emergency_number: str


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


#: A name longer than this takes two lines at the head of a page (measured at 14 and 18 pt).
LONG_NAME = 36


@dataclass(frozen=True)
class Sheet:
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
    steps: tuple[str, ...] = ()
    skin: str = ""
    size: str = ""
    marks: tuple[Mark, ...] = ()
    face: Face | None = field(default=None, compare=False)
    call: tuple[Group, ...] = ()
    next_visit: NextVisit | None = None

    @property
    def head(self) -> str:
        """How much room the identifiers need on top of every page after the first."""
        lines = self.large + (len(self.who.name) > LONG_NAME)
        return ("low", "tall", "tallest")[lines]
