"""How long one barrier may stay, and how long it is likely to."""

from __future__ import annotations

import math
from dataclasses import dataclass

from planning.findings import RemovalReason
from planning.plan import Reason
from planning.situation import Situation
from planning.sources import PRACTICE
from planning.thresholds import WEAR_LONG, WEAR_RAW, WEAR_SHORT
from planning.wear import usual_wear

#: Fewer barriers than this say too little about one person (design value).
_ENOUGH = 3


@dataclass(frozen=True, slots=True)
class WearInterval:
    """``limit``: change at the latest after so many days (None: no reason for a limit).

    ``expected``: days one barrier is likely to stay, never above the limit.
    """

    limit: float | None
    expected: float
    because: tuple[Reason, ...]


def wear_interval(situation: Situation) -> WearInterval:
    """From raw skin, leaks and this person's own log; else the published mean for the kind."""
    limits = _limits(situation)
    limit = min((days for days, _ in limits), default=None)
    expected = _expected(situation)
    return WearInterval(
        limit=limit,
        expected=expected if limit is None else min(expected, limit),
        because=tuple(reason for _, reason in limits),
    )


def _limits(situation: Situation) -> list[tuple[float, Reason]]:
    facts = situation.facts
    out: list[tuple[float, Reason]] = []
    if facts.weeping or facts.separated:
        text = "Raw skin or a wound must be seen often."
        out.append((WEAR_RAW.value, Reason(text, (PRACTICE,), "skin")))
    wear = facts.wear
    if wear is not None and wear.longest_days is not None and wear.longest_days > WEAR_LONG.value:
        text = f"A barrier was worn for {wear.longest_days:g} days."
        out.append((WEAR_LONG.value, Reason(text, (PRACTICE,), "wear")))
    if (leak := first_leak_day(situation)) is not None:
        text = f"Barriers leaked from day {leak:g} on: change before that."
        out.append(
            (max(WEAR_SHORT.value, math.ceil(leak) - 1.0), Reason(text, (PRACTICE,), "wear"))
        )
    return out


def first_leak_day(situation: Situation) -> float | None:
    """The shortest time (days) after which a barrier of the log leaked, if it held a day."""
    failed = (RemovalReason.LEAK, RemovalReason.FELL_OFF)
    log = situation.facts.findings.wear or ()
    days = [e.days for e in log if e.reason in failed and e.days > WEAR_SHORT.value]
    return min(days, default=None)


def _expected(situation: Situation) -> float:
    wear = situation.facts.wear
    if wear is not None and wear.changes >= _ENOUGH and wear.mean_days:
        return wear.mean_days
    return usual_wear(situation.facts.kind).value
