"""Every datum of the trend in words: what the figure's marks say and the table repeats."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from typing import Protocol

from clinic import formatting
from clinic.plans.course_results import (
    CHANNELS,
    PANELS,
    Bar,
    Channel,
    Face,
    Point,
    Series,
    Sighting,
    Spot,
    Zone,
)
from clinic.visits.choices import RemovalReason, SkinKind


class Happening(Protocol):
    """What is drawn as a vertical mark; ``kind`` one of the keys of ``EVENT_WORDS``."""

    @property
    def day(self) -> date: ...
    @property
    def kind(self) -> str: ...
    @property
    def text(self) -> str: ...
    @property
    def waits(self) -> bool: ...


@dataclass(frozen=True, slots=True)
class Mark:
    """One datum: ``value`` in words with its unit; ``number`` None where it has none."""

    day: date
    value: str
    number: float | None = None
    #: What it is a value of, such as "protrusion"; a short name beside an event, such as "Plan 2".
    name: str = ""

    @property
    def said(self) -> str:
        """Name and exact value."""
        between = " " if self.number is not None else ": "
        return between.join(filter(None, (self.name, self.value)))

    @property
    def words(self) -> str:
        """Date, name and exact value."""
        return f"{formatting.day(self.day)}: {self.said}"

    @property
    def short_name(self) -> str:
        """``P2`` for ``Plan 2``."""
        word, *number = self.name.split()
        return word[0] + "".join(number)


@dataclass(frozen=True, slots=True)
class Track:
    """The data of one kind, oldest first. ``unit`` is that of ``number``."""

    key: str
    title: str
    unit: str
    marks: tuple[Mark, ...]


def named_zones(zones: tuple[Zone, ...]) -> tuple[Zone, ...]:
    """Each zone by a word that is right for all of it: the class that reaches to both sides of
    the skin is flush above it and belongs to the one before, retracted, below it."""
    named: list[Zone] = []
    for zone in zones:
        if zone.low is None or zone.high is None or not zone.low < 0 < zone.high:
            named.append(zone)
            continue
        below = named.pop()
        sources = tuple(dict.fromkeys((*below.sources, *zone.sources)))
        named += replace(below, high=0.0, sources=sources), replace(zone, low=0.0)
    return tuple(named)


def zone_words(zone: Zone) -> str:
    """``Zone “flush”: 0 to 4 mm``."""
    limits = [formatting.number(end) for end in (zone.low, zone.high) if end is not None]
    if zone.low is None:
        limits.insert(0, "up")
    words = " to ".join(limits) + (" mm" if zone.high is not None else " mm and more")
    return f"Zone “{zone.label}”: {words}"


EVENT_WORDS = {
    "surgery": "Surgery",
    "plan_change": "Plan",
    "referral": "Referral",
    "answer": "Answer",
    "closed": "Closed",
}
#: Of these there is one in the life of a stoma.
ONCE = {"surgery", "closed"}
STILL_ON = "still on"
#: A question with all its findings fills a page: its first line is shown, the whole of it is
#: with the referral.
MOST_LETTERS = 240


#: Panels that are no line of values come before the output.
CLOCKS_AND_BARS = ("separation", "bulge", "bars")
#: Every panel from top to bottom, and so the columns of the table.
ORDER = tuple(
    key
    for panel in PANELS
    for key in ((*CLOCKS_AND_BARS, panel.key) if panel.key == "output" else (panel.key,))
)


def tracks_of(
    series: Series, events: Iterable[Happening], today: date, *, hernia: bool = False
) -> tuple[Track, ...]:
    """Everything there is to show; a track without data is left out. ``hernia``: a bulge was
    confirmed as one."""
    every = (
        *(_points(channel, series.of(channel.key)) for channel in CHANNELS),
        Track("faces", "Damaged skin", "", tuple(Mark(f.day, face_words(f)) for f in series.faces)),
        _sighted("separation", "Separation", series.separation),
        _sighted("bulge", "Hernia" if hernia else "Bulge", series.bulge),
        Track("bars", "Barriers worn", "days", tuple(_bar(bar, today) for bar in series.bars)),
        Track("events", "Events", "", tuple(_events(events))),
    )
    return tuple(track for track in every if track.marks)


def _points(channel: Channel, points: tuple[Point, ...]) -> Track:
    unit, name = channel.unit, channel.title.lower()
    return Track(
        channel.key,
        channel.title,
        unit,
        tuple(
            Mark(p.day, f"{_figure(p.value, unit)}{_own_error(p, unit)}", p.value, name)
            for p in points
        ),
    )


def _figure(value: float, unit: str) -> str:
    return f"{formatting.number(_exact(value, unit))} {unit}"


def _own_error(point: Point, unit: str) -> str:
    """Only a size from a photo has an error of its own."""
    if point.error is None:
        return ""
    return f" (from a photo, {_figure(round(point.error, 1), unit)} either way)"


def _exact(value: float, unit: str) -> float:
    """As charted; an area, which is worked out, to whole mm²: no hand paints it finer."""
    return round(value) if unit == "mm²" else round(value, 2)


def face_words(face: Face) -> str:
    """``raw, shallow erosion, 4 to 8 o'clock``; or that the skin was looked at and whole."""
    if face.intact:
        return "skin intact all round"
    kinds = ", ".join(_kind(kind) for kind in face.kinds) or "skin damaged"
    return f"{kinds}, {face.hours.words()}" if len(face.hours) else f"{kinds}, hours not recorded"


def _kind(key: str) -> str:
    return SkinKind(key).label.lower() if key in SkinKind.values else key


def ever(sightings: tuple[Sighting, ...]) -> tuple[Sighting, ...]:
    """All of them where it was found at any visit; what never was there needs no panel."""
    return sightings if any(one.spots for one in sightings) else ()


def _sighted(key: str, title: str, sightings: tuple[Sighting, ...]) -> Track:
    marks = (Mark(one.day, spots_words(one.spots), name=title.lower()) for one in ever(sightings))
    return Track(key, title, "", tuple(marks))


def spots_words(spots: tuple[Spot, ...] | None) -> str:
    """``at 6 to 7 o'clock, 4 mm deep``; ``none``; ``not recorded``."""
    if spots is None:
        return formatting.NOT_RECORDED
    return "; ".join(_spot(spot) for spot in spots) or "none"


def _spot(spot: Spot) -> str:
    where = spot.hours.placed().strip() or "hours not recorded"
    return ", ".join([where, *(f"{_figure(size, 'mm')} {word}" for word, size in spot.sizes)])


def days_worn(bar: Bar, today: date) -> int:
    """Days from putting on to taking off; until the day it was last seen where it is still on."""
    return max(0, (last_day(bar, today) - bar.on).days)


def last_day(bar: Bar, today: date) -> date:
    """The day it came off, else the last on which anybody knew it to be on."""
    return bar.off or bar.seen_on or today


def _bar(bar: Bar, today: date) -> Mark:
    days = days_worn(bar, today)
    lasted = f"{days} day" if days == 1 else f"{days} days"
    last = last_day(bar, today)
    if bar.off and bar.reason:
        why = RemovalReason(bar.reason).label.lower()
        return Mark(bar.on, f"barrier worn {lasted}, off {formatting.day(bar.off)}: {why}", days)
    if bar.off is None and last >= today:
        return Mark(bar.on, f"barrier put on, {STILL_ON} after {lasted}", days)
    # No one knows when it came off: no later day than one on which it was seen is said.
    return Mark(bar.on, f"barrier put on, last seen on {formatting.day(last)} ({lasted})", days)


def _events(events: Iterable[Happening]) -> Iterator[Mark]:
    seen: dict[str, int] = {}
    for event in sorted(events, key=lambda e: e.day):
        kind = str(event.kind)
        seen[kind] = seen.get(kind, 0) + 1
        name = EVENT_WORDS[kind]
        label = name if kind in ONCE else f"{name} {seen[kind]}"
        yield Mark(event.day, _details(event, label), name=label)


def _details(event: Happening, label: str) -> str:
    """What the event says beyond its name."""
    if event.text.lower().removeprefix("stoma ") == label.lower():
        return ""
    first = event.text.strip().partition("\n")[0]
    text = textwrap.shorten(first, MOST_LETTERS, placeholder=" …")
    return f"{text} (no answer yet)" if event.waits else text
