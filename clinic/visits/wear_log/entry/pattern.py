"""A barrier every so many days, with exceptions: rows for the grid, to be checked there."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, timedelta
from uuid import UUID, uuid4

from clinic import formatting
from clinic.visits.wear_log.entry.days import Around, read_day
from clinic.visits.wear_log.entry.reasons import KEY, Why, read_why
from clinic.visits.wear_log.entry.rows import Typed
from clinic.visits.wear_log.entry.table import MOST_ROWS


@dataclass(frozen=True, slots=True)
class TypedRule:
    """The small form as typed. ``until`` empty: up to today, and the last one is still on."""

    every: str = ""
    since: str = ""
    until: str = ""
    why: str = "p"
    exceptions: str = ""


@dataclass
class RuleRead:
    """``rows`` for the grid where there is no problem."""

    rows: tuple[Typed, ...] = ()
    problems: dict[str, list[str]] = field(default_factory=dict)

    def problem(self, name: str, text: str) -> None:
        self.problems.setdefault(name, []).append(text)


def read_rule(typed: TypedRule, around: Around, new_key: Callable[[], UUID] = uuid4) -> RuleRead:
    """Rows from ``since``: each worn ``every`` days, or until the exception that came first.

    After an exception counting restarts, as a new barrier was put on then.
    """
    read = RuleRead()
    every = _every(typed.every, read)
    since = _day(typed.since, "since", around, read)
    until = _day(typed.until, "until", around, read) if typed.until.strip() else around.today
    why = read_why(typed.why)
    if why.reason is None:
        read.problem("why", f"Write one of: {KEY}.")
    exceptions = _exceptions(typed.exceptions, around, since, until, read)
    if since and until and until < since:
        read.problem("until", "This is before the first day.")
    if read.problems or not (every and since and until):
        return read
    changes = _changes(since, until, every, _said(why), exceptions)
    if len(changes) > MOST_ROWS:
        read.problem("until", f"That is more than {MOST_ROWS} rows; choose a shorter time.")
        return read
    rows = [
        Typed(str(new_key()), formatting.day(on), formatting.day(off), reason)
        for on, off, reason in changes
    ]
    if not typed.until.strip():
        last = changes[-1][1] if changes else since
        rows.append(Typed(str(new_key()), formatting.day(last), "still on"))
    read.rows = tuple(rows)
    if not rows:
        read.problem("until", "No barrier came off by then.")
    return read


def _changes(
    since: date, until: date, every: int, usual: str, exceptions: list[tuple[date, str]]
) -> list[tuple[date, date, str]]:
    """(on, off, reason) of every barrier that came off by ``until``."""
    found: list[tuple[date, date, str]] = []
    waiting = sorted(exceptions, key=lambda e: e[0])
    on = since
    while len(found) <= MOST_ROWS:
        off, reason = on + timedelta(days=every), usual
        if waiting and waiting[0][0] <= off:
            off, reason = waiting.pop(0)
        if off > until:
            break
        found.append((on, off, reason))
        on = off
    return found


def _every(text: str, read: RuleRead) -> int | None:
    plain = text.strip()
    if plain.isdecimal() and len(plain) <= 3 and 1 <= int(plain) <= 60:
        return int(plain)
    read.problem("every", "Write a whole number of days, 1 to 60.")
    return None


def _day(text: str, name: str, around: Around, read: RuleRead) -> date | None:
    if not text.strip():
        read.problem(name, "Give the day.")
        return None
    found = read_day(text, around)
    if found.problem:
        read.problem(name, found.problem)
    elif found.day and found.day > around.today:
        read.problem(name, f"{formatting.day(found.day)} is in the future.")
        return None
    return found.day


def _exceptions(
    text: str, around: Around, since: date | None, until: date | None, read: RuleRead
) -> list[tuple[date, str]]:
    found = []
    around = Around(around.today, around.order, since)
    for one in (part.strip() for part in re.split(r"[\n;,]+", text)):
        if not one:
            continue
        day, reason, problem = _exception(one, around)
        if day is None or not reason:
            read.problem("exceptions", f"\u201c{one}\u201d: {problem}")
        elif since and until and not since <= day <= until:
            outside = "is before the first day or after the last."
            read.problem("exceptions", f"\u201c{one}\u201d: {formatting.day(day)} {outside}")
        else:
            found.append((day, reason))
    return found


def _exception(text: str, around: Around) -> tuple[date | None, str, str]:
    """Day and reason, split where both can be read; else why not."""
    parts = text.split()
    problem = f"Write a day and a reason, such as 10 Nov l ({KEY})."
    for cut in range(len(parts) - 1, 0, -1):
        why = read_why(" ".join(parts[cut:]))
        if why.reason is None:
            continue
        read = read_day(" ".join(parts[:cut]), around)
        if read.day:
            return read.day, _said(why), ""
        problem = read.problem
    return None, "", problem


def _said(why: Why) -> str:
    """As it is put into a row: ``Leak, soaked``."""
    said = [str(why.reason.label)] if why.reason else []
    return ", ".join([*said, *([str(why.circumstance.label).lower()] if why.circumstance else [])])
