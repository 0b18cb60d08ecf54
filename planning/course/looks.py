"""When a plan is judged: three looks in twelve weeks, planned before anything is known.

A person who looks every week sees a difference by chance sooner or later, so that a verdict is made
of what was known on the latest planned look, and not made again each day. One look falls into each
``LOOK_EVERY`` days after the plan: on the first visit in them that is not before ``LOOK_FROM``
days of them, else on their last day. A plan that the next change ends is looked at then instead,
while three looks are not used up. Later is another time, and nothing found then is put down to the
plan.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from planning.evidence.thresholds import LOOK_EVERY, LOOK_FROM, LOOKS

#: Days after a plan in which it is judged.
WINDOW: Final = int(LOOKS.value * LOOK_EVERY.value)


@dataclass(frozen=True, slots=True)
class Looks:
    """``days``: all of them, as they are planned now; ``due``: how many have come."""

    days: tuple[date, ...]
    due: int

    @property
    def latest(self) -> date | None:
        """The verdict is of this day; None: too early."""
        return self.days[self.due - 1] if self.due else None

    @property
    def next(self) -> date | None:
        """By then it is judged again; None: never."""
        return self.days[self.due] if self.due < len(self.days) else None


def window_ends(plan: date) -> date:
    """The last day that says something of a plan of that day."""
    return plan + timedelta(days=WINDOW)


def looks_of(plan: date, visits: Sequence[date], until: date | None, end: date) -> Looks:
    """``visits``: days of the visits after the ``plan``; ``until``: the next change, if any;
    ``end``: the last day known."""
    days = [_look(plan, visits, number) for number in range(int(LOOKS.value))]
    if until is not None:
        days = [day for day in days if day < until]
        if len(days) < LOOKS.value and until <= window_ends(plan):
            days.append(until)
    return Looks(tuple(days), sum(day <= end for day in days))


def _look(plan: date, visits: Sequence[date], number: int) -> date:
    last = plan + timedelta(days=int((number + 1) * LOOK_EVERY.value))
    first = plan + timedelta(days=int(number * LOOK_EVERY.value + LOOK_FROM.value))
    return min((day for day in visits if first <= day <= last), default=last)
