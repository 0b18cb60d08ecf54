"""How long the time axis is: what was recorded, without years of nothing before or after."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from clinic.plans.course_results import Series
from clinic.trends.tracks import ever

#: Days added on either side, so that a single visit still has an axis.
LEAST = timedelta(days=14)
EDGE = 0.02


@dataclass(frozen=True, slots=True)
class Span:
    """From ``first`` to ``last``, both shown; ``start`` and ``end`` without the room beside
    them."""

    first: date
    last: date
    start: date
    end: date

    def __contains__(self, day: date) -> bool:
        return self.first <= day <= self.last


def span_of(series: Series, events: Sequence[date], today: date) -> Span:
    """What was found sets the axis; an event or today stretches it at most to double each way.

    A surgery ten years back would else press a season of visits into a line.
    """
    days = sorted(days_of(series)) or sorted(events) or [today]
    reach = max(days[-1] - days[0], LEAST)
    earliest, latest = days[0] - reach, days[-1] + reach
    near = [*days, *(day for day in (*events, today) if earliest <= day <= latest)]
    first, last = min(near), max(near)
    return edged(first, last)


def edged(first: date, last: date) -> Span:
    """With a little room on either side."""
    edge = max((last - first) * EDGE, timedelta(days=1))
    return Span(first - edge, last + edge, first, last)


def days_of(series: Series) -> Iterable[date]:
    """Every day something was found or worn on."""
    yield from (point.day for _, points in series.points for point in points)
    for track in (
        series.faces,
        ever(series.separation),
        ever(series.bulge),
    ):
        yield from (one.day for one in track)
    for bar in series.bars:
        yield bar.on
        if last := bar.off or bar.seen_on:
            yield last
