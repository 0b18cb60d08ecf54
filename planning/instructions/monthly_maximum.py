"""Amounts a month against the usual maximum of their code (US Medicare coverage rule L33828).

The maximum holds for the code: a ring and a half ring are ordered under one and count together.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from planning.facts.change_interval import ChangeInterval
from planning.facts.in_words import every_days, in_days
from planning.results.plan import Quantity

_MONTH_DAYS: Final = 30


def monthly(per_change: float, wear_days: float) -> int:
    """How many a month where one barrier stays ``wear_days``."""
    return math.ceil(math.ceil(_MONTH_DAYS / wear_days) * per_change)


def against_maximum(lines: tuple[Quantity, ...], wear: ChangeInterval) -> tuple[Quantity, ...]:
    """``lines`` with a note on what is over its maximum."""
    return tuple(_judged(line, lines, wear) for line in lines)


def _judged(line: Quantity, lines: tuple[Quantity, ...], wear: ChangeInterval) -> Quantity:
    most = line.usual_monthly_maximum
    if most is None or line.per_month is None:
        return line
    same = [other for other in lines if other.code == line.code and other.per_month is not None]
    total = sum(other.per_month or 0 for other in same)
    note = None
    if total > most:
        note = f"{total} a month{_rate(line, wear.expected)}"
    elif wear.low and (short := _short_end(same, wear.low)) > most:
        note = f"up to {short} a month, should barriers last only {in_days(wear.low)}"
    if note is not None:
        with_ = [other.text for other in same if other is not line]
        note += f", counted with {' and '.join(with_)} under one code" if with_ else ""
        note += f", is over the usual maximum of {most:g}: write the reason into the record."
    return replace(line, over_maximum=total > most, cap_note=note)


def _rate(line: Quantity, wear_days: float) -> str:
    """What makes the month: how many a change, and how long a barrier stays."""
    each = f"{line.per_change:g} a change, " if line.per_change != 1 else ""
    return f" ({each}a barrier every {every_days(wear_days)})"


def _short_end(lines: list[Quantity], low: float) -> int:
    """A month at the short end of the interval; what is used again counts once as before."""
    return sum(
        line.per_month or 0 if line.note is None else monthly(line.per_change, low)
        for line in lines
    )
