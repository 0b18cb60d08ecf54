"""What was worn before a plan and what since, from the wear log.

A barrier belongs to the period in which it was put on, whole. One put on and off again on the day
of a visit was worn before it. One still on counts up to the last day on which it was known to be:
what no one has seen since may have leaked long ago. Of records that contradict one another none is
counted, for one barrier recorded twice would count as two. Times are whole days; 0 is less than a
day.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from planning.course.record import Course, SignedVisit, Worn
from planning.evidence.thresholds import WEAR_TYPING_ERROR
from planning.inputs.findings import RemovalReason

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


def next_change(visits: tuple[SignedVisit, ...], index: int) -> int | None:
    """The next visit after ``index`` whose plan changed something; None: the plan still applies."""
    later = range(index + 1, len(visits))
    return next((i for i in later if visits[i].changed), None)


def periods_of(visits: tuple[SignedVisit, ...], index: int) -> tuple[Period, Period]:
    """Before the plan of visit ``index``: from the visit before it. After: until the next change.

    Before the first visit everything that was logged counts.
    """
    day = visits[index].day
    until = next_change(visits, index)
    before = Period(visits[index - 1].day if index else None, day)
    return before, Period(day, None if until is None else visits[until].day)
