"""What was worn before a plan and what since, from the wear log.

A barrier belongs to the period in which it was put on, whole. One put on and off again on the day
of a visit was worn before it. One still on counts up to the last day on which it was known to be:
what no one has seen since may have leaked long ago. Of records that contradict one another none is
counted, for one barrier recorded twice would count as two. Times are whole days; 0 is less than a
day.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from planning.course.record import Course, SignedVisit, Worn
from planning.evidence.thresholds import (
    BEFORE_LEAST,
    BEFORE_MOST,
    CHECK_LEAST,
    RUN_IN,
    WEAR_TYPING_ERROR,
)
from planning.inputs.findings import RemovalReason
from planning.inputs.usable_numbers import check_numbers

LEAKED: Final = (RemovalReason.LEAK, RemovalReason.FELL_OFF)


def in_order(course: Course) -> Course:
    """Oldest first, whatever the order it came in."""
    worn = course.worn
    if worn is not None:
        worn = tuple(sorted(worn, key=lambda w: (w.on, w.off or date.max)))
    return replace(
        course,
        visits=tuple(sorted(course.visits, key=lambda v: v.day)),
        worn=worn,
        events=tuple(sorted(course.events, key=lambda e: e.day)),
    )


def end_of(course: Course) -> date:
    """The last day of what is still going on: today, or the day the stoma was closed."""
    return course.today if course.closed is None else min(course.today, course.closed)


@dataclass(frozen=True, slots=True)
class Period:
    """From ``start`` (None: from the first barrier logged) to before ``end`` (None: until now)."""

    start: date | None
    end: date | None

    def holds(self, worn: Worn) -> bool:
        """Put on in this period."""
        after = self.start is None or worn.on > self.start or _begins(worn, self.start)
        before = self.end is None or worn.on < self.end or _ends(worn, self.end)
        return after and before


def _begins(worn: Worn, start: date) -> bool:
    return worn.on == start and worn.off != start


def _ends(worn: Worn, end: date) -> bool:
    return worn.on == end == worn.off


@dataclass(frozen=True, slots=True)
class Wear:
    """The barriers of one period. ``failed``: came off for anything but a planned change.

    ``leaks``: leaked or fell off. ``ended``: taken off or fallen off, so without those still on.
    ``left_out``: worn so long that it looks like a slip of the pen; ``disputed``: left out because
    records of it contradict one another.
    """

    days: tuple[float, ...]
    failed: tuple[bool, ...]
    leaks: int
    ended: int
    left_out: int
    disputed: int = 0

    @property
    def exposure(self) -> float:
        """Days worn in all."""
        return sum(self.days)

    @property
    def failures(self) -> int:
        return sum(self.failed)


def wear_in(course: Course, period: Period) -> Wear | None:
    """What was worn in ``period``; None where no log was ever kept."""
    if course.worn is None:
        return None
    return wear_of((w for w in course.worn if period.holds(w)), end_of(course))


def wear_of(worn: Iterable[Worn], end: date) -> Wear:
    """Counted up to ``end``; what comes later is not known yet."""
    every = [_as_of(w, end) for w in worn if w.on <= end]
    known = [w for w in every if not w.disputed]
    spans = [(float((_until(w, end) - w.on).days), w.reason) for w in known]
    kept = [(days, reason) for days, reason in spans if days <= WEAR_TYPING_ERROR.value]
    return Wear(
        days=tuple(days for days, _ in kept),
        failed=tuple(r is not None and r is not RemovalReason.PLANNED for _, r in kept),
        leaks=sum(reason in LEAKED for _, reason in kept),
        ended=sum(reason is not None for _, reason in kept),
        left_out=len(spans) - len(kept),
        disputed=len(every) - len(known),
    )


def _as_of(worn: Worn, end: date) -> Worn:
    if worn.off is None or worn.off <= end:
        return worn
    return replace(worn, off=None, reason=None)


def _until(worn: Worn, end: date) -> date:
    return worn.off or min(worn.seen_on or end, end)


def check_index(visits: Sequence[SignedVisit], index: int) -> None:
    """Raises ``UnusableNumber`` for no visit of these; a negative one would count from the end."""
    check_numbers(index=index, low=0, high=len(visits) - 1)


def next_change(visits: tuple[SignedVisit, ...], index: int) -> int | None:
    """The next visit after ``index`` whose plan changed something; None: the plan still applies."""
    check_index(visits, index)
    later = range(index + 1, len(visits))
    return next((i for i in later if visits[i].changed), None)


def last_change(visits: tuple[SignedVisit, ...], index: int) -> int | None:
    """The last visit before ``index`` whose plan changed something; None: there was none."""
    check_index(visits, index)
    return next((i for i in reversed(range(index)) if visits[i].changed), None)


def checks_before(visits: tuple[SignedVisit, ...], index: int) -> tuple[SignedVisit, ...]:
    """The visits that changed nothing, since the last change and at least ``CHECK_LEAST`` days
    before the plan of visit ``index``."""
    check_index(visits, index)
    changed = last_change(visits, index)
    since = visits[0 if changed is None else changed + 1 : index]
    day = visits[index].day
    return tuple(v for v in since if (day - v.day).days >= CHECK_LEAST.value)


@dataclass(frozen=True, slots=True)
class Before:
    """What was worn before a plan, from ``start`` to ``end``. ``fair``: more than the time that
    made the visit."""

    wear: Wear | None
    fair: bool
    start: date
    end: date

    def gap(self, plan: date, look: date) -> float:
        """Days from the middle of this time to the middle of that from the ``plan`` to ``look``."""
        middle = (self.end - self.start).days / 2
        return middle + (plan - self.end).days + (look - plan).days / 2


def worn_before(course: Course, index: int) -> Before:
    """What was logged since the last change, up to ``BEFORE_MOST`` days, and without the last
    ``RUN_IN`` days: a visit is made when things are bad, and they would partly settle anyway
    (regression to the mean).

    It takes ``BEFORE_LEAST`` days, or ``CHECK_LEAST`` days after a check that changed nothing. With
    less it is all of it, up to the plan, and not ``fair``.
    """
    check_index(course.visits, index)
    plan = course.visits[index].day
    changed = last_change(course.visits, index)
    start = None if changed is None else course.visits[changed].day
    every = [w for w in course.worn or () if Period(start, plan).holds(w)]
    cut = plan - timedelta(days=int(RUN_IN.value))
    first = cut - timedelta(days=int(BEFORE_MOST.value))
    usual = [w for w in every if first <= w.on < cut]
    checks = [(v.day, CHECK_LEAST.value) for v in checks_before(course.visits, index)]
    for begin, least in ((start, BEFORE_LEAST.value), *checks):
        kept = [w for w in usual if Period(begin, None).holds(w)]
        if kept and (cut - kept[0].on).days >= least:
            return Before(wear_of(kept, cut), fair=True, start=kept[0].on, end=cut)
    begun = every[0].on if every else plan
    log = None if course.worn is None else wear_of(every, plan)
    return Before(log, fair=False, start=begun, end=plan)


def worn_since(course: Course, index: int, look: date) -> Wear | None:
    """What was worn since the plan and until the next change, as it was known at ``look``."""
    check_index(course.visits, index)
    if course.worn is None:
        return None
    until = next_change(course.visits, index)
    period = Period(course.visits[index].day, None if until is None else course.visits[until].day)
    return wear_of((w for w in course.worn if period.holds(w)), min(look, end_of(course)))
