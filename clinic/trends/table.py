"""The figure's values as tables, for people who do not read a drawing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from clinic import formatting
from clinic.plans.course_results import PANELS
from clinic.trends.tracks import ORDER, Track

#: Columns of a panel besides those of its channels.
BESIDE = {"skin": ("faces",), "separation": ("separation",), "bulge": ("bulge",)}
CHANNELS_OF = {panel.key: tuple(one.key for one in panel.channels) for panel in PANELS}
#: What is found at a visit, in the panels' order; barriers and events have dates of their own.
AT_VISITS = tuple(
    column for key in ORDER for column in (*CHANNELS_OF.get(key, ()), *BESIDE.get(key, ()))
)


@dataclass(frozen=True, slots=True)
class Row:
    """One day, a cell a heading; "" where nothing was recorded."""

    day: date
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """One table of the page."""

    caption: str
    headings: tuple[str, ...]
    rows: tuple[Row, ...]


def tables_of(tracks: Sequence[Track]) -> tuple[Table, ...]:
    """What the visits found, the barriers worn, the events; newest first, like the record."""
    by_key = {track.key: track for track in tracks}
    found = [by_key[key] for key in AT_VISITS if key in by_key]
    tables = [_visits(found)] if found else []
    tables += [_alone(by_key[key]) for key in ("bars", "events") if key in by_key]
    return tuple(tables)


def _visits(tracks: list[Track]) -> Table:
    days = sorted({mark.day for track in tracks for mark in track.marks}, reverse=True)
    return Table(
        "Found at each visit",
        tuple(track.title for track in tracks),
        tuple(Row(day, tuple(_cell(track, day) for track in tracks)) for day in days),
    )


def _cell(track: Track, day: date) -> str:
    return "; ".join(mark.value for mark in track.marks if mark.day == day)


def _alone(track: Track) -> Table:
    return Table(
        track.title,
        ("What",),
        tuple(
            Row(mark.day, (mark.words.removeprefix(f"{formatting.day(mark.day)}: "),))
            for mark in reversed(track.marks)
        ),
    )
