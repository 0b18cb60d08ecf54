"""Flag of the wear: barriers come off ever sooner."""

from __future__ import annotations

from datetime import timedelta

from planning.course.number_words import count, day_words, number
from planning.course.periods import end_of
from planning.course.real_change import slope
from planning.course.record import Course
from planning.course.results import CourseFlag, Point
from planning.evidence.thresholds import WEAR_TYPING_ERROR, WEAR_WINDOW
from planning.results.plan import Reason
from planning.statistics.too_few import TooFew

_SOURCES = ("sen1968/slope", "design_value")


def wear_falling(course: Course) -> CourseFlag | None:
    """The slope of days worn over the last weeks is below 0 with its whole 95 % interval.

    Wear is counted in whole days, so that makes a day at least over the barriers it rests on.
    """
    worn = recent(course)
    found = slope(worn)
    if isinstance(found, TooFew) or found.high >= 0:
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
        "of the slope is below 0.",
        because=(Reason(f"Wear is {figures}", _SOURCES, "wear"),),
        sources=_SOURCES,
    )


def recent(course: Course) -> tuple[Point, ...]:
    """Days worn of the barriers taken off, by the day they were put on, in the last weeks."""
    end = end_of(course)
    start = end - timedelta(days=WEAR_WINDOW.value)
    worn = (w for w in course.worn or () if not w.disputed)
    ended = ((w.on, (w.off - w.on).days) for w in worn if w.off and w.off <= end)
    return tuple(
        Point(on, float(days))
        for on, days in ended
        if on >= start and days <= WEAR_TYPING_ERROR.value
    )
