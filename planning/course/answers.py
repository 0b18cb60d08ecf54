"""What the person answered, beside the answer before. Only pain has a margin; nothing else judges.

The questions are the clinic's own and not validated: of the others no more is said than same,
higher or lower, as given.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planning.course.channels import ANSWERED, PAIN, Channel
from planning.course.number_words import day_words, number
from planning.course.results import Figure, Point, Series
from planning.evidence.thresholds import PAIN_MARGIN

_SOURCES: Final = ("design_value",)


def answers(drawn: Series) -> tuple[Figure, ...]:
    """A line for each question that was ever answered."""
    return tuple(_lines(drawn))


def _lines(drawn: Series) -> Iterator[Figure]:
    for channel in ANSWERED:
        points = drawn.of(channel.key)
        if points:
            sources = _SOURCES if channel is PAIN else ()
            yield Figure(channel.key, channel.title, _text(channel, points), sources)


def _text(channel: Channel, points: tuple[Point, ...]) -> str:
    now = points[-1]
    last = f"{_figure(now)} on {day_words(now.day)}"
    if len(points) == 1:
        return f"{last}. Answered once."
    before = points[-2]
    return f"{last}, {_figure(before)} on {day_words(before.day)}: {_way(channel, before, now)}."


def _figure(point: Point) -> str:
    return f"{number(point.value)} of 10"


def _way(channel: Channel, before: Point, now: Point) -> str:
    change = now.value - before.value
    if not change:
        return "the same as given"
    way = "higher" if change > 0 else "lower"
    if channel is not PAIN:
        return f"{way} as given"
    margin = f"the margin of {number(PAIN_MARGIN.value)} (design value)"
    if abs(change) < PAIN_MARGIN.value:
        return f"{way} by {number(abs(change))}, less than {margin}"
    return f"{way} by {number(abs(change))}, {margin} or more"
