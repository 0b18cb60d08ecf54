"""Which part of the course the figure opens on: the last 90 days or the last six visits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from clinic.plans.course_results import Series
from clinic.trends.drawing.time_span import days_of
from clinic.trends.tracks import last_day

RECENT = timedelta(days=90)
VISITS = 6


@dataclass(frozen=True, slots=True)
class Window:
    """``since`` None: the whole course. ``part``: there is more than the recent part."""

    since: date | None
    words: str
    part: bool


def window_of(series: Series, visits: Sequence[date], today: date, *, whole: bool) -> Window:
    """The longer of 90 days and six visits; ``visits``: their days, oldest first."""
    first = min(days_of(series), default=visits[0])
    # Of six visits or fewer nothing is left out, not even what was worn before the first of them.
    sixth = visits[-VISITS] if len(visits) > VISITS else min(first, visits[0])
    recent = today - RECENT
    since = min(recent, sixth)
    words = "the last 90 days" if recent <= sixth else "the last six visits"
    part = first < since
    if whole or not part:
        return Window(None, "the whole course", part)
    return Window(since, words, part)


def within(series: Series, since: date, today: date) -> Series:
    """What was found from ``since`` on, and the barriers worn then."""
    return replace(
        series,
        points=tuple(
            (key, tuple(point for point in points if point.day >= since))
            for key, points in series.points
        ),
        faces=tuple(face for face in series.faces if face.day >= since),
        bars=tuple(bar for bar in series.bars if last_day(bar, today) >= since),
        separation=tuple(one for one in series.separation if one.day >= since),
        bulge=tuple(one for one in series.bulge if one.day >= since),
    )
