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
    """From ``first`` to ``last``, both shown."""

    first: date
    last: date

    def __contains__(self, day: date) -> bool:
        return self.first <= day <= self.last


def span_of(series: Series, events: Sequence[date], today: date) -> Span:
    """What was found sets the axis; an event or today stretches it at most to double each way.

    A surgery ten years back would else press a season of visits into a line.
    """
    days = sorted(_days(series)) or sorted(events) or [today]
    reach = max(days[-1] - days[0], LEAST)
    earliest, latest = days[0] - reach, days[-1] + reach
    near = [*days, *(day for day in (*events, today) if earliest <= day <= latest)]
    first, last = min(near), max(near)
    edge = max((last - first) * EDGE, timedelta(days=1))
    return Span(first - edge, last + edge)


def _days(series: Series) -> Iterable[date]:
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
