"""The rows of the grid, read from the top: what each says, and what is wrong with it in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from clinic import formatting
from clinic.visits.wear_log.entry.days import Around, Order, read_day, words
from clinic.visits.wear_log.entry.reasons import CIRCUMSTANCE_KEY, KEY, LETTERS, Why, read_why

#: What may be entered under "came off" for a barrier that has not.
STILL_ON = frozenset({"o", "on", "open", "still on", "still", "-", "\u2013"})


@dataclass(frozen=True, slots=True)
class Typed:
    """One row exactly as typed. ``given``: what the page itself had put into ``on``."""

    key: str
    on: str = ""
    off: str = ""
    why: str = ""
    given: str = ""

    @property
    def blank(self) -> bool:
        """Nothing entered: at most the day that the page filled in."""
        rest = self.off.strip() or self.why.strip()
        return not rest and self.on.strip() in ("", self.given.strip())


@dataclass(frozen=True, slots=True)
class Life:
    """When the stoma was there, and what ``today`` is; a barrier is worn in between."""

    today: date
    surgery: date | None = None
    closed: date | None = None


@dataclass
class RowRead:
    """A row as read. Without ``problems`` it may be stored; ``filled``: its first day was left
    empty and is taken from the row above, to be looked at before it is stored."""

    typed: Typed
    on: date | None = None
    off: date | None = None
    reason: str = ""
    circumstance: str = ""
    filled: bool = False
    #: The day that the page filled in and nothing was typed beside: not counted; "" otherwise.
    uncounted: str = ""
    problems: dict[str, list[str]] = field(default_factory=dict)

    def problem(self, name: str, text: str) -> None:
        said = self.problems.setdefault(name, [])
        if text not in said:
            said.append(text)

    @property
    def good(self) -> bool:
        return not self.problems and not self.typed.blank

    @property
    def worn(self) -> str:
        """How long, in words; "" where it could not be read."""
        if self.on is None or self.problems or self.typed.blank:
            return ""
        if self.off is None:
            return "still on"
        days = (self.off - self.on).days
        return "less than a day" if days == 0 else f"{days} day{'s' * (days != 1)}"


def read_rows(
    typed: Iterable[Typed], life: Life, order: Order = Order.ASK, before: date | None = None
) -> list[RowRead]:
    """Every row, in the same order. A short day is read by the one before it (``before``: the
    last day of what is already in the log)."""
    rows: list[RowRead] = []
    last_off: date | None = None
    for one in typed:
        around = Around(life.today, order, before)
        row = _read(one, around, last_off)
        row.uncounted = _uncounted(one, last_off)
        _check_alone(row, life)
        rows.append(row)
        if not one.blank:
            last_off = row.off
            before = row.off or row.on or before
    return rows


def _read(typed: Typed, around: Around, last_off: date | None) -> RowRead:
    row = RowRead(typed)
    if typed.blank:
        return row
    if typed.on.strip():
        read = read_day(typed.on, around)
        row.on = read.day
        if read.problem:
            row.problem("on", read.problem)
    elif last_off is not None:
        row.on, row.filled = last_off, True
        row.typed = replace(typed, on=formatting.day(last_off))
    else:
        row.problem("on", "When was it put on?")
    if not is_still_on(typed.off):
        read = read_day(typed.off, replace(around, after=row.on or around.after), ends=True)
        row.off = read.day
        if read.problem:
            row.problem("off", read.problem)
    _read_reason(row)
    return row


def _uncounted(typed: Typed, last_off: date | None) -> str:
    if not typed.blank or typed.on.strip() != "=":
        return typed.on.strip() if typed.blank else ""
    return formatting.day(last_off) if last_off else ""


def uncounted_words(row: RowRead) -> str:
    """What becomes of a row of which only the page has written something; "" for any other."""
    if not row.uncounted:
        return ""
    return (
        f"Put on {row.uncounted} is not counted yet: "
        "type o (still on) under Came off, or clear the row."
    )


def is_still_on(text: str) -> bool:
    """Whether the entry under "came off" says that it has not."""
    return " ".join(text.lower().split()) in {"", *STILL_ON}


def _read_reason(row: RowRead) -> None:
    why, off = row.typed.why.strip(), not is_still_on(row.typed.off)
    if not why:
        if off:
            row.problem("why", f"Why did it come off? {KEY}.")
        return
    read = read_why(why)
    if read.reason is None:
        row.problem("why", _not_a_reason(read))
        return
    row.reason, row.circumstance = read.reason.value, read.circumstance or ""
    if not off:
        row.problem("off", "When did it come off?")


def _not_a_reason(read: Why) -> str:
    if read.circumstance is not None:
        said = str(read.circumstance.label).lower()
        return f"Write the reason first ({', '.join(LETTERS)}), then: {said}."
    return f"Write one of: {KEY}; after it you may write: {CIRCUMSTANCE_KEY}."


def _check_alone(row: RowRead, life: Life) -> None:
    if row.on and row.off and row.off < row.on:
        row.problem("off", "It came off before it was put on.")
    for name, day in (("on", row.on), ("off", row.off)):
        if day is None:
            continue
        if day > life.today:
            row.problem(name, f"{formatting.day(day)} is in the future.")
        elif life.surgery and day < life.surgery:
            row.problem(name, f"The stoma was made on {formatting.day(life.surgery)}, after this.")
        elif life.closed and day > life.closed:
            row.problem(name, f"The stoma was closed on {formatting.day(life.closed)}.")
    if row.on and not row.off and life.closed and not row.problems:
        closed = formatting.day(life.closed)
        row.problem("off", f"The stoma was closed on {closed}: when did this one come off?")


def check_together(rows: Sequence[RowRead], stored: Iterable[tuple[date, date | None]]) -> None:
    """Overlaps, shown at the row that can be changed. ``stored``: what else is on the log page."""
    spans = [(row.on, row.off, row) for row in rows if row.on and not row.typed.blank]
    every: list[tuple[date, date | None, RowRead | None]] = [
        *spans,
        *((on, off, None) for on, off in stored),
    ]
    every.sort(key=lambda span: (span[0], span[1] or date.max))
    reach: tuple[date, date | None, RowRead | None] | None = None
    for span in every:
        if reach is not None:
            _compare(reach, span)
        if reach is None or (span[1] or date.max) >= (reach[1] or date.max):
            reach = span


def _compare(
    earlier: tuple[date, date | None, RowRead | None],
    later: tuple[date, date | None, RowRead | None],
) -> None:
    (on, off, row), (next_on, _, next_row) = earlier, later
    if off is None:
        if row is not None and "off" not in row.problems:
            row.problem(
                "off",
                f"Another was put on {formatting.day(next_on)}: when did this one come off?",
            )
        elif row is None and next_row is not None:
            next_row.problem(
                "on",
                f"The log has the barrier put on {formatting.day(on)} as still on. "
                "Write there first when it came off.",
            )
    elif next_on < off:
        text = f"This overlaps the barrier worn from {formatting.day(on)} to {formatting.day(off)}."
        at, said = (next_row, text) if next_row else (row, "This overlaps one already in the log.")
        if at is not None:
            at.problem("on", said)


def reading(row: RowRead) -> dict[str, str]:
    """What was understood, to be shown beside each field."""
    said = {name: words(day) for name, day in (("on", row.on), ("off", row.off)) if day}
    why = read_why(row.typed.why)
    if why.reason is not None:
        label = why.circumstance and f": {str(why.circumstance.label).lower()}"
        said["why"] = f"{why.reason.label}{label or ''}"
    if not row.typed.blank and row.on and is_still_on(row.typed.off) and not row.typed.why.strip():
        said["off"] = "Still on"
    return said
