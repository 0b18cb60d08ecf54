"""The wear log in words: its barriers, its sums, and what does not fit together."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date

from clinic import formatting
from clinic.visits.choices import Circumstance, RemovalReason
from clinic.visits.wear_log.merge import PAGE, Logged


@dataclass(frozen=True)
class Line:
    """One barrier of the table. ``row``: id of its row on the log page, to correct it there."""

    on: str
    off: str
    worn: str
    reason: str
    why: str
    said_by: tuple[str, ...]
    disputed: bool
    row: str


@dataclass(frozen=True)
class Caution:
    """What does not fit together: shown, not decided. ``kind``: gap, open or disputed."""

    kind: str
    text: str


def lines_of(log: Sequence[Logged]) -> list[Line]:
    """Newest first, as one looks things up."""
    return [_line(barrier) for barrier in reversed(log)]


def _line(barrier: Logged) -> Line:
    page = next((c for c in barrier.claims if c.source == PAGE), None)
    return Line(
        on=formatting.day(barrier.on),
        off=_off(barrier),
        worn=_worn(barrier),
        reason=barrier.reason,
        why=_why(barrier),
        said_by=tuple(claim.words for claim in barrier.claims if claim.words),
        disputed=barrier.disputed,
        row=str(page.row) if page else "",
    )


def _why(barrier: Logged) -> str:
    """``Leak (pouch too full)``; two that differ are both said."""
    if not barrier.reason:
        return ""
    named = " or ".join(str(Circumstance(one).label).lower() for one in barrier.circumstances)
    return f"{RemovalReason(barrier.reason).label}{f' ({named})' if named else ''}"


def _off(barrier: Logged) -> str:
    if barrier.off:
        return formatting.day(barrier.off)
    return formatting.NOT_RECORDED if barrier.superseded else "still on"


def _worn(barrier: Logged) -> str:
    if barrier.days is None:
        return ""
    return (
        "less than a day" if not barrier.days else f"{barrier.days} day{'s' * (barrier.days != 1)}"
    )


def words_of(barrier: Logged) -> str:
    """``3 Mar 2026 to 6 Mar 2026, 3 days: leak``."""
    begun = formatting.day(barrier.on)
    if barrier.off is None:
        return f"{begun}, {_off(barrier) if not barrier.superseded else 'not recorded until when'}"
    return f"{begun} to {formatting.day(barrier.off)}, {_worn(barrier)}: {_why(barrier).lower()}"


def summary_of(log: Sequence[Logged]) -> list[tuple[str, str]]:
    """(label, value): barriers, leaks, the other reasons, since when."""
    if not log:
        return []
    counts = [
        (str(reason.label), str(sum(barrier.reason == reason for barrier in log)))
        for reason in (
            RemovalReason.LEAK,
            RemovalReason.FELL_OFF,
            RemovalReason.ITCH_OR_PAIN,
            RemovalReason.PLANNED,
        )
    ]
    return [
        ("Barriers", str(len(log))),
        *counts,
        ("From", formatting.day(log[0].on)),
        ("To", formatting.day(max(barrier.seen_on for barrier in log))),
    ]


def cautions_of(log: Sequence[Logged], only: Collection[str] | None = None) -> list[Caution]:
    """Gaps, barriers no one saw come off, contradictions; ``only`` those beside given rows."""
    found: list[Caution] = []
    reach: Logged | None = None
    for barrier in log:
        if reach is not None and _wanted((reach, barrier), only):
            found += _between(reach, barrier)
        if reach is None or barrier.seen_on >= reach.seen_on:
            reach = barrier
    return found + _disputes(log, only) + _circumstances(log, only)


def _wanted(barriers: Sequence[Logged], only: Collection[str] | None) -> bool:
    return only is None or any(str(row) in only for b in barriers for row in b.rows)


def _between(earlier: Logged, later: Logged) -> list[Caution]:
    if earlier.disputed and later.on < earlier.seen_on:
        return []
    if earlier.off is None:
        if later.on == earlier.on and later.off is None:
            return []
        text = (
            f"The barrier put on {formatting.day(earlier.on)} has no day on which it came off, "
            f"though another was put on {formatting.day(later.on)}."
        )
        return [Caution("open", text)]
    if later.on > earlier.seen_on:
        text = (
            f"{_span(earlier.seen_on, later.on)} no barrier is recorded: forgotten, or none worn?"
        )
        return [Caution("gap", text)]
    return []


def _span(first: date, last: date) -> str:
    if (first.year, first.month) == (last.year, last.month):
        return f"Between {first.day} and {last.day} {last:%B} {last.year}"
    return f"Between {formatting.day(first)} and {formatting.day(last)}"


def _circumstances(log: Sequence[Logged], only: Collection[str] | None) -> list[Caution]:
    """Barriers of which two things are said to have been the matter: neither is counted."""
    return [
        Caution("circumstance", f"{words_of(barrier)}. Two records differ in what else was the "
                "matter, so neither counts. Which is right?")
        for barrier in log
        if len(barrier.circumstances) > 1 and _wanted((barrier,), only)
    ]  # fmt: skip


def _disputes(log: Sequence[Logged], only: Collection[str] | None) -> list[Caution]:
    """Each pair that cannot both be true, with who recorded what."""
    found = []
    disputed = [barrier for barrier in log if barrier.disputed]
    for place, one in enumerate(disputed):
        for other in disputed[place + 1 :]:
            if other.on < one.seen_on and _wanted((one, other), only):
                found.append(
                    Caution("disputed", f"{_claimed(one)}; but {_claimed(other)}. Which is right?")
                )
    return found


def _claimed(barrier: Logged) -> str:
    said = " and ".join(dict.fromkeys(claim.words for claim in barrier.claims if claim.words))
    return f"{words_of(barrier)}{f' ({said})' if said else ' (typed here)'}"
