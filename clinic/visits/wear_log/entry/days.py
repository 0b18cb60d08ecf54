"""A day typed short. Whatever could be read two ways is asked about, as ``clinic.dates`` has it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from clinic import formatting
from clinic.dates import readings

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
NOT_A_DAY = "This is not a day. Write it like 3 Nov."
#: A day typed without its year is looked for this far back: far enough for a 29 February.
YEARS_BACK = 8

_TIME = re.compile(r"[ t]+\d{1,2}:\d\d(:\d\d(\.\d+)?)?( ?[ap]m)?z?$")
_WEEKDAY = re.compile(r"^(?P<name>[a-z]{2,9})\b[., ]*(?P<rest>.*)$")
_NUMBER = re.compile(r"^(?P<d>\d\d?)(?:st|nd|rd|th)?\.?$")
_AFTER = re.compile(r"^\+ ?(?P<n>\d{1,3})$")
#: 3/11/26, 3-Nov-26 and Nov 3, 26: this century's year.
_SHORT_YEARS = tuple(
    re.compile(rf"^(?P<rest>{begin})'?(?P<y>\d\d)$")
    for begin in (
        r"\d\d?[-/. ]+\d\d?[-/. ]+",
        r"[^a-z]*\d.*[a-z].*[-/., ]+",
        r"[a-z]+\.?[ .-]*\d\d?(?:st|nd|rd|th)?[-/., ]+",
    )
)


class Order(StrEnum):
    """What comes first where a day is written in figures alone."""

    ASK = "ask"
    DAY = "day"
    MONTH = "month"


@dataclass(frozen=True, slots=True)
class DayRead:
    """``day`` None: it could not be read; ``problem`` says why, in words."""

    day: date | None = None
    problem: str = ""


@dataclass(frozen=True, slots=True)
class Around:
    """What a short day is read by. ``after``: the day it follows, if any; ``today`` ends it."""

    today: date
    order: Order = Order.ASK
    after: date | None = None


def read_day(text: str, around: Around, *, ends: bool = False) -> DayRead:
    """The day ``text`` means.

    Without a year or month it is the first such day from ``after`` on; where that would be in
    the future, or nothing comes before, the last one up to today. ``=`` is the day before it in
    the grid again, ``+3`` three days later. ``ends``: a weekday equal to the day it was put on
    may be that day or the next week's, so it is asked about.

    >>> around = Around(today=date(2026, 11, 25))
    >>> [str(read_day(t, around).day) for t in ("3", "3 Nov", "yesterday", "Mon", "31.10.26")]
    ['2026-11-03', '2026-11-03', '2026-11-24', '2026-11-23', '2026-10-31']
    >>> read_day("3/11", around).problem[:37]
    'Is that 11 Mar 2026 or 3 Nov 2026? Wr'
    >>> str(read_day("3/11", Around(around.today, Order.DAY)).day)
    '2026-11-03'
    """
    text = _TIME.sub("", " ".join(text.lower().split())).strip(" ,;")
    for read in (_named, _counted, _weekday, _number):
        if (found := read(text, around, ends)) is not None:
            return found
    return _dated(text, around)


def words(day: date) -> str:
    """How a reading is shown: ``Tue 3 Nov 2026``."""
    return f"{day:%a} {formatting.day(day)}"


def _named(text: str, around: Around, ends: bool) -> DayRead | None:
    if text == "today":
        return DayRead(around.today)
    if text in ("yesterday", "yest"):
        return DayRead(around.today - timedelta(days=1))
    return None


def _counted(text: str, around: Around, ends: bool) -> DayRead | None:
    found = _AFTER.match(text)
    if not found and text != "=":
        return None
    if around.after is None:
        return DayRead(problem="There is no day before it to count from.")
    return DayRead(around.after + timedelta(days=int(found["n"]) if found else 0))


def _weekday(text: str, around: Around, ends: bool) -> DayRead | None:
    found = _WEEKDAY.match(text)
    number = _weekday_number(found["name"]) if found else None
    if found is None or number is None:
        return None
    if found["rest"]:
        return _checked(read_day(found["rest"], around), number)
    after = around.after
    if ends and after and after.weekday() == number:
        later = after + timedelta(days=7)
        if later <= around.today:
            return DayRead(problem=f"Is that {_either([after, later])}? Write the day.")
    back = (around.today - timedelta(days=n) for n in range(366))
    return _nearest([d for d in back if d.weekday() == number], around)


def _weekday_number(name: str) -> int | None:
    """0 is Monday; two letters and more are enough. ``mar`` and ``sep`` are months."""
    for number, full in enumerate(WEEKDAYS):
        if full.startswith(name) or name in (f"{full[:4]}s", f"{full[:3]}s"):
            return number
    return None


def _checked(read: DayRead, weekday: int) -> DayRead:
    if read.day is None or read.day.weekday() == weekday:
        return read
    said = WEEKDAYS[read.day.weekday()].capitalize()
    return DayRead(problem=f"{formatting.day(read.day)} is a {said}. Which is meant?")


def _number(text: str, around: Around, ends: bool) -> DayRead | None:
    """A day of a month."""
    if not (found := _NUMBER.match(text)):
        return None
    months = (around.today.year * 12 + around.today.month - 1 - n for n in range(12 * YEARS_BACK))
    return _nearest(_real((m // 12, m % 12 + 1, int(found["d"])) for m in months), around)


def _dated(text: str, around: Around) -> DayRead:
    for short in _SHORT_YEARS:
        if found := short.match(text):
            text = f"{found['rest']}20{found['y']}"
            break
    if full := readings(text):
        return _chosen(full, text, around)
    text = text.rstrip("./- ")
    years = range(around.today.year, around.today.year - YEARS_BACK - 1, -1)
    every = [day for year in years for day in readings(f"{text} {year}")]
    nearest = {
        day: _nearest([d for d in every if (d.month, d.day) == day], around).day
        for day in {(d.month, d.day) for d in every}
    }
    found_days = sorted(day for day in nearest.values() if day)
    return _chosen(found_days, text, around)


def _chosen(found: list[date], text: str, around: Around) -> DayRead:
    """The one reading; of two, the one with the day or the month first if that was said."""
    if not found:
        return DayRead(problem=NOT_A_DAY)
    if len(found) == 1:
        return DayRead(found[0])
    first = int(re.findall(r"\d+", text)[0])
    if around.order is Order.DAY:
        found = [day for day in found if day.day == first]
    elif around.order is Order.MONTH:
        found = [day for day in found if day.month == first]
    if len(found) == 1:
        return DayRead(found[0])
    asked = f"Is that {_either(found)}?"
    return DayRead(problem=f"{asked} Write the month in letters, or say what comes first.")


def _either(days: Iterable[date]) -> str:
    return " or ".join(formatting.day(day) for day in days)


def _nearest(days: list[date], around: Around) -> DayRead:
    past = sorted(day for day in days if day <= around.today)
    if not past:
        return DayRead(problem=NOT_A_DAY)
    following = [day for day in past if around.after and day >= around.after]
    return DayRead(following[0] if following else past[-1])


def _real(parts: Iterable[tuple[int, int, int]]) -> list[date]:
    found = []
    for year, month, day in parts:
        try:
            found.append(date(year, month, day))
        except ValueError:
            continue
    return found
