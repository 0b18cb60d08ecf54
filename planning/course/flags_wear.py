"""Flag of the wear: barriers come off ever sooner.

Planned changes alone never say so: of those put on in the first and in the second half of the last
weeks, these must also fail sooner by the log-rank test, in which a planned change is no failure.
"""

from __future__ import annotations

from datetime import timedelta

from planning.course.number_words import count, day_words, number
from planning.course.periods import end_of, wear_of
from planning.course.real_change import slope
from planning.course.record import Course, Worn
from planning.course.results import CourseFlag, Point
from planning.evidence.thresholds import WEAR_FALLS_P, WEAR_TYPING_ERROR, WEAR_WINDOW
from planning.results.plan import Reason
from planning.statistics.survival import log_rank
from planning.statistics.too_few import TooFew

_SOURCES = ("sen1968/slope", "mantel1966/log_rank", "design_value")


def wear_falling(course: Course) -> CourseFlag | None:
    """The slope of days worn over the last weeks is below 0 with its whole 95 % interval, and so
    many fail sooner.

    Wear is counted in whole days, so that makes a day at least over the barriers it rests on.
    """
    worn = recent(course)
    found = slope(worn)
    if isinstance(found, TooFew) or found.high >= 0 or not _fail_sooner(course):
        return None
    first, last = worn[0].day, worn[-1].day
    lost = -found.per_day * (last - first).days
    figures = (
        f"{number(lost)} days shorter over {count(found.n, 'barrier')} put on from "
        f"{day_words(first)} to {day_words(last)} "
        f"(95 % interval {number(-found.high * (last - first).days)} to "
        f"{number(-found.low * (last - first).days)})."
    )
    return CourseFlag(
        key="wear",
        text="Barriers come off sooner and sooner.",
        figures=figures,
        rule=f"Days worn fall over the last {number(WEAR_WINDOW.value)} days: the whole interval "
        "of the slope is below 0, and those of the second half fail sooner (log-rank test).",
        because=(Reason(f"Wear is {figures}", _SOURCES, "wear"),),
        sources=_SOURCES,
    )


def _fail_sooner(course: Course) -> bool:
    """Asked where there are enough barriers for a slope."""
    worn = _ended(course)
    middle = worn[0].on + (worn[-1].on - worn[0].on) / 2
    first, then = (
        wear_of((w for w in worn if (w.on > middle) is late), end_of(course))
        for late in (False, True)
    )
    found = log_rank(then.days, then.failed, first.days, first.failed)
    return (
        not isinstance(found, TooFew)
        and found.p < WEAR_FALLS_P.value
        and found.observed > found.expected
    )


def recent(course: Course) -> tuple[Point, ...]:
    """Days worn of the barriers taken off, by the day they were put on, in the last weeks."""
    return tuple(Point(w.on, float((w.off - w.on).days)) for w in _ended(course) if w.off)


def _ended(course: Course) -> tuple[Worn, ...]:
    end = end_of(course)
    start = end - timedelta(days=WEAR_WINDOW.value)
    return tuple(
        w
        for w in course.worn or ()
        if not w.disputed
        and w.on >= start
        and w.off is not None
        and w.off <= end
        and (w.off - w.on).days <= WEAR_TYPING_ERROR.value
    )
