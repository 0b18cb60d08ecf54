"""A diary pasted from a spreadsheet. Every line becomes a row, readable or not."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from uuid import UUID, uuid4

from clinic.visits.wear_log.entry.days import NOT_A_DAY, Around, read_day
from clinic.visits.wear_log.entry.reasons import read_why
from clinic.visits.wear_log.entry.rows import Typed, is_still_on

#: Rows that one page takes; the rest waits in the box.
MOST_ROWS = 150

_HEADINGS = {
    "on": ("on", "put on", "applied", "start", "from", "date on", "new", "fitted"),
    "off": ("off", "came off", "removed", "end", "to", "until", "date off", "taken off"),
    "why": ("why", "reason", "why it came off", "cause", "because"),
}
_OF_HEADING = {word: column for column, listed in _HEADINGS.items() for word in listed}
_ONLY_DATES = ("date", "day", "changed", "change")


@dataclass(frozen=True, slots=True)
class Pasted:
    """``rows`` for the grid; ``heading`` the line read as headings; ``notes`` to say on the page;
    ``rest`` the lines that did not fit."""

    rows: tuple[Typed, ...] = ()
    heading: str = ""
    notes: tuple[str, ...] = ()
    rest: str = ""


def read_table(
    text: str, around: Around, new_key: Callable[[], UUID] = uuid4, *, room: int = MOST_ROWS
) -> Pasted:
    """Two or three columns: on, off and why; or the day it came off and why.

    Nothing is lost: each line that is not blank is a row, the heading or in ``rest``, which has
    the heading again. ``room``: how many rows the page still takes.
    """
    lines = [line for line in text.splitlines() if line.strip()]
    if not lines:
        return Pasted()
    mark = _separator(lines)
    cells = [_cells(line, mark) for line in lines]
    columns = _columns_of(cells[0])
    heading = lines[0].strip() if columns else ""
    body = cells[1:] if columns else cells
    columns = columns or _guess(body, around)
    rows = [_row(row, columns, str(new_key())) for row in body[:room]]
    left = lines[(1 if heading else 0) + room :]
    rest = "\n".join([lines[0], *left] if heading and left else left)
    rows, turned = _oldest_first(rows, around)
    return Pasted(tuple(rows), heading, _notes(heading, rest, turned, columns), rest)


def _separator(lines: Sequence[str]) -> str:
    for mark in ("\t", ";"):
        if any(mark in line for line in lines):
            return mark
    return "," if any("," in line for line in lines) else "  "


def _cells(line: str, mark: str) -> list[str]:
    if mark == "  ":
        return re.split(r"\s{2,}", line.strip())
    # A line at a time: a stray quotation mark must not swallow the lines after it.
    try:
        cells = next(csv.reader([line], delimiter=mark, skipinitialspace=True), [line])
    except csv.Error:
        cells = line.split(mark)
    return [cell.strip() for cell in cells]


def _columns_of(cells: list[str]) -> dict[int, str]:
    """Place -> column, if the line is a heading."""
    plain = [" ".join(cell.lower().split()).strip(" .:") for cell in cells]
    found: dict[int, str] = {}
    for place, word in enumerate(plain):
        column = _OF_HEADING.get(word)
        if column and column not in found.values():
            found[place] = column
    if "on" in found.values() or "off" in found.values():
        return found
    if "why" in found.values():
        dates = [place for place, word in enumerate(plain) if word in _ONLY_DATES]
        return {**found, dates[0]: "off"} if dates else {}
    return {}


def _guess(body: list[list[str]], around: Around) -> dict[int, str]:
    """Two columns are on and off, unless the second holds reasons; then off and why."""
    if max((len(row) for row in body), default=0) == 2:
        seconds = [row[1] for row in body if len(row) == 2 and row[1]]
        reasons = sum(read_why(cell).reason is not None for cell in seconds)
        days = sum(not is_still_on(cell) and _is_day(cell, around) for cell in seconds)
        if reasons > days:
            return {0: "off", 1: "why"}
    return {0: "on", 1: "off", 2: "why"}


def _is_day(text: str, around: Around) -> bool:
    return read_day(text, around).problem != NOT_A_DAY


def _row(cells: list[str], columns: dict[int, str], key: str) -> Typed:
    values = {"on": "", "off": "", "why": ""}
    beyond = []
    for place, cell in enumerate(cells):
        if place in columns:
            values[columns[place]] = cell
        elif cell:
            beyond.append(cell)
    # What has no column is put where it is seen, and asked about there.
    values["why"] = " ".join([values["why"], *beyond]).strip()
    return Typed(key, **values)


def _oldest_first(rows: list[Typed], around: Around) -> tuple[list[Typed], bool]:
    """Turned round where the first line is the newest; full days only, so as not to guess."""
    days = [read_day(row.off or row.on, around).day for row in rows]
    known = [day for day in days if day is not None]
    falling = len(known) > 1 and known == sorted(known, reverse=True) and known[0] > known[-1]
    return (rows[::-1], True) if falling and len(known) == len(rows) else (rows, False)


def _notes(heading: str, rest: str, turned: bool, columns: dict[int, str]) -> tuple[str, ...]:
    notes = []
    if heading:
        notes.append(f"The first line was read as headings: {heading}")
    if turned:
        notes.append("The newest came first; the order of the rows is reversed.")
    if "on" not in columns.values():
        notes.append("Each barrier is assumed to have been put on when the one before came off.")
    if rest:
        notes.append(
            f"One page takes {MOST_ROWS} rows; the other lines stay in the box: save first."
        )
    return tuple(notes)
