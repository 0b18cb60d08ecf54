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
class Step:
    """One step of the change. ``picture`` names a drawing of ``static/drawings``, "" for none; ``shows``: what is
    seen on it."""

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


#: A name longer than this takes two lines at the head of a page (measured at 14 and 18 pt).
LONG_NAME = 36
#: More words than this in steps, things to use, marks and calls do not fit two pages as they are
#: (measured at 14 pt on A4 and Letter).
FULL = 320
FULLER = 430


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
    steps: tuple[Step, ...] = ()
    skin: str = ""
    size: str = ""
    marks: tuple[Mark, ...] = ()
    face: Face | None = field(default=None, compare=False)
    call: tuple[Group, ...] = ()
    next_visit: NextVisit | None = None

    @property
    def spacing(self) -> str:
        """How close it is set in normal print, to keep to two pages."""
        words = self._words()
        return "fuller full" if words > FULLER else "full" if words > FULL else ""

    def _words(self) -> int:
        lines = [step.words for step in self.steps] + [mark.words for mark in self.marks]
        lines += [line.words for use in self.uses for line in use.lines]
        lines += [line for group in (*self.call, *self.look_at) for line in group.lines]
        return sum(len(line.split()) for line in lines)

    @property
    def head(self) -> str:
        """How much room the identifiers need on top of every page after the first."""
        lines = self.large + (len(self.who.name) > LONG_NAME)
        return ("low", "tall", "tallest")[lines]
