"""What the course of one stoma answers: plain data, worded, with figures and sources.

Only types, so that a page that shows them needs nothing else of the planner. Lengths mm, areas mm2,
volumes mL/24 h, times days, rates per week.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from planning.inputs.clock import ClockHours
from planning.inputs.findings import RemovalReason
from planning.results.plan import Reason, Urgency


# --- series ---------------------------------------------------------------------------------
@dataclass(frozen=True, slots=True)
class Point:
    """One value at one visit. ``error``: its own, either way (about 95 %), where it has one that
    is not the usual one of measuring."""

    day: date
    value: float
    error: float | None = None


@dataclass(frozen=True, slots=True)
class Zone:
    """A band of the value axis. ``low``/``high`` None: open on that side."""

    key: str
    label: str
    low: float | None
    high: float | None
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """A level on the value axis, such as high output."""

    label: str
    value: float
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Face:
    """The damaged skin of one visit on the clock face; ``intact``: looked, none."""

    day: date
    hours: ClockHours
    kinds: tuple[str, ...]
    intact: bool


@dataclass(frozen=True, slots=True)
class Spot:
    """Where something was seen; ``sizes`` (mm) with the word that follows each: *deep*, *wide*."""

    hours: ClockHours
    sizes: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Sighting:
    """What one visit says of a thing looked for: None not recorded, () looked and none."""

    day: date
    spots: tuple[Spot, ...] | None


@dataclass(frozen=True, slots=True)
class Bar:
    """One barrier worn; ``off`` None: no one recorded that it came off by the end of the record.

    ``off`` without a reason: seen on until that day, and no one knows when and why it came off.
    ``seen_on``: of one still on, the last day on which anybody knew it to be; None: all along.
    """

    on: date
    off: date | None
    reason: RemovalReason | None
    seen_on: date | None = None


@dataclass(frozen=True, slots=True)
class Series:
    """All that the trend draws; a visit without the value has no point.

    ``points``: each channel's key with its points. ``separation`` (of stoma and skin) and ``bulge``
    have an entry for every visit. ``under_16``: a visit was made under 16, so there are no
    ``zones`` and ``output_lines``: they are for adults.
    """

    points: tuple[tuple[str, tuple[Point, ...]], ...]
    faces: tuple[Face, ...]
    bars: tuple[Bar, ...]
    zones: tuple[Zone, ...]
    output_lines: tuple[Line, ...]
    separation: tuple[Sighting, ...] = ()
    bulge: tuple[Sighting, ...] = ()
    under_16: bool = False

    def of(self, key: str) -> tuple[Point, ...]:
        """The points of one channel, oldest first; () where it was never recorded."""
        return dict(self.points).get(key, ())


# --- did it help ----------------------------------------------------------------------------
class Verdict(StrEnum):
    """``CANNOT_TELL``: no difference shown yet, which says nothing against the plan. The keys are
    kept as they were stored."""

    HELPED = "helped"
    NO_DIFFERENT = "no_different"
    WORSE = "worse"
    CANNOT_TELL = "cannot_tell"


class Judged(StrEnum):
    LEAKS = "leaks"
    WEAR = "wear"
    SKIN = "skin"


@dataclass(frozen=True, slots=True)
class Finding:
    """The verdict on one measure. ``text`` carries the figures, or says what is missing.

    ``before``/``after`` None: too little to give a number. ``chance``: that nothing but chance
    makes so much (None: not judged). ``settles``: better only than in the time that made the visit.
    """

    of: Judged
    verdict: Verdict
    text: str
    sources: tuple[str, ...]
    before: float | None = None
    after: float | None = None
    unit: str = ""
    chance: float | None = None
    settles: bool = False


@dataclass(frozen=True, slots=True)
class PlanOutcome:
    """How the plan of ``day`` did until ``until`` (None: it still applies).

    ``changed``: what it changed, in words; () nothing. ``persists``: leaks or damaged skin were
    still there after it (None: neither was looked for). ``look``: the verdict is of this day
    (None: not judged yet).
    """

    day: date
    until: date | None
    verdict: Verdict
    text: str
    findings: tuple[Finding, ...]
    supplies: frozenset[str]
    hurt: frozenset[str] = frozenset()
    changed: tuple[str, ...] = ()
    persists: bool | None = None
    look: date | None = None


# --- flags over time ------------------------------------------------------------------------
@dataclass(frozen=True, slots=True)
class CourseFlag:
    """Something the course shows: the rule in words, the figures it rests on, and the sources.

    ``urgency`` None: worth knowing, no one to call. ``error``: which error of measuring it was held
    against; "" where only assumed ones can be.
    """

    key: str
    text: str
    figures: str
    rule: str
    because: tuple[Reason, ...]
    sources: tuple[str, ...]
    urgency: Urgency | None = None
    error: str = ""


# --- the figures in words -------------------------------------------------------------------
@dataclass(frozen=True, slots=True)
class Figure:
    """One statistic for the page: ``text`` is whole on its own, and says where data are too few."""

    key: str
    label: str
    text: str
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Moved:
    """A channel that moved by more than the error of measuring it; ``key`` the channel's."""

    key: str
    since: Point
    latest: Point


@dataclass(frozen=True, slots=True)
class CourseReport:
    """One stoma in one minute. ``headline``: sentences with figures, the most important first;
    ``moved``: what moved beyond error, in the order it is read; ``answers``: what was said."""

    headline: tuple[str, ...]
    series: Series
    outcomes: tuple[PlanOutcome, ...]
    flags: tuple[CourseFlag, ...]
    figures: tuple[Figure, ...]
    moved: tuple[Moved, ...] = ()
    answers: tuple[Figure, ...] = ()
