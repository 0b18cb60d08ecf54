"""Height, skin and wear of one stoma as three small lines: drawn, and whole in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.utils.safestring import SafeString, mark_safe

from clinic import formatting
from clinic.plans.course_results import Series
from clinic.trends.drawing.small_lines import Value, small_line
from clinic.trends.drawing.time_span import edged
from clinic.trends.tracks import Happening, days_worn, face_words
from clinic.visits.choices import RemovalReason

#: A small line shows the newest values, and says the newest of these in words.
SHOWN, SAID = 20, 6


@dataclass(frozen=True)
class Spark:
    """``now``: the newest value and its day; ``before``: the value at the last change of a plan, ""
    where there is none. ``svg`` "" where nothing can be drawn."""

    label: str
    now: str
    day: date | None
    before: str
    svg: SafeString


@dataclass(frozen=True)
class _Line:
    """``words`` of a number, in its unit; ``said``: the newest in words where no number says it."""

    label: str
    values: tuple[Value, ...]
    marked: tuple[Value, ...] = ()
    unit: str = "mm"
    said: tuple[date, str] | None = None

    def words(self, number: float) -> str:
        if self.unit == "days":
            return f"{number:g} day{'s' * (number != 1)}"
        if self.unit == "mm²" and number == 0:
            return "intact"
        exact = round(number) if self.unit == "mm²" else round(number, 1)
        return f"{formatting.number(exact)} {self.unit}"


def sparks(
    series: Series, changes: Sequence[Happening], *, today: date, key: str
) -> tuple[Spark, ...]:
    """Always three, each as wide as its own time. ``changes``: what plans changed, oldest first."""
    lines = (_height(series), _skin(series), _wear(series, today))
    change = changes[-1].day if changes else None
    return tuple(
        _spark(line, change, f"{key}{number}") for number, line in enumerate(lines, start=1)
    )


def _spark(line: _Line, change: date | None, key: str) -> Spark:
    newest = line.said or _newest(line)
    if newest is None:
        return Spark(line.label, formatting.NOT_RECORDED, None, "", SafeString())
    day, now = newest
    earlier = [number for on, number in line.values if change and on <= change]
    later = change is not None and day > change
    before = line.words(earlier[-1]) if earlier and later else ""
    if not line.values:
        return Spark(line.label, now, day, before, SafeString())
    shown = line.values[-SHOWN:]
    svg = small_line(
        shown,
        edged(shown[0][0], shown[-1][0]),
        change=change,
        key=key,
        words=_whole(line, change),
        marked=[value for value in shown if value in line.marked],
    )
    # Our own drawing; every word in it was escaped when it was made.
    return Spark(line.label, now, day, before, mark_safe(svg))  # noqa: S308


def _newest(line: _Line) -> tuple[date, str] | None:
    if not line.values:
        return None
    day, number = line.values[-1]
    leaked = ", leak" if line.values[-1] in line.marked else ""
    return day, f"{line.words(number)}{leaked}"


def _whole(line: _Line, change: date | None) -> str:
    """For who does not see it: the newest values with their days, and when a plan last changed."""
    told = [
        f"{line.words(number)}{', leak' if (day, number) in line.marked else ''} on "
        f"{formatting.day(day)}"
        for day, number in line.values[-SAID:]
    ]
    marked = f". Last change of the plan: {formatting.day(change)}" if change else ""
    return f"{line.label}: {'; '.join(told)}{marked}"


def _height(series: Series) -> _Line:
    return _Line("Height", tuple((p.day, p.value) for p in series.of("protrusion")))


def _skin(series: Series) -> _Line:
    """The damaged area; where the last visit painted none of known size, what it found instead."""
    values = tuple((p.day, p.value) for p in series.of("burden"))
    face = series.faces[-1] if series.faces else None
    if face is None or (values and values[-1][0] >= face.day):
        return _Line("Skin", values, unit="mm²")
    words = "intact" if face.intact else face_words(face)
    return _Line("Skin", values, unit="mm²", said=(face.day, words))


def _wear(series: Series, today: date) -> _Line:
    """Days that each barrier held, by the day it came off; of one still on nothing is said."""
    off = [bar for bar in series.bars if bar.off and bar.reason]
    values = [(bar.off or bar.on, float(days_worn(bar, today))) for bar in off]
    leaked = [str(bar.reason) == RemovalReason.LEAK.value for bar in off]
    leaks = [value for value, leak in zip(values, leaked, strict=True) if leak]
    return _Line("Wear", tuple(values), tuple(leaks), "days")
