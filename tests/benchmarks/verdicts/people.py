"""Invented diaries and skin with a known truth, in the planner's own types.

Leaks come at a rate a day that may change with time; a barrier that has not leaked by its planned
day is changed. The skin is a sore from one border to another; what is charted errs as hands do.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from planning.course.record import SignedVisit, Worn
from planning.inputs.clock import ClockHours, hour_after
from planning.inputs.findings import Findings, RemovalReason, SkinFinding, SkinKind
from tests.planning.builders import well

START = date(2025, 1, 6)
Dice = np.random.Generator
#: Leaks a day on a day counted from ``START``.
Rate = Callable[[float], float]


def day(number: float) -> date:
    """The date so many days after ``START``."""
    return START + timedelta(days=int(number))


def diary(dice: Dice, rate: Rate, start: float, end: float, planned: float) -> tuple[Worn, ...]:
    """Barriers worn from ``start`` to ``end``, each at most ``planned`` days."""
    return tuple(_worn(dice, rate, start, end, planned))


def _worn(dice: Dice, rate: Rate, start: float, end: float, planned: float) -> Iterator[Worn]:
    now = start
    while now < end:
        # Thinned: the rate is never more than ``most`` while this barrier is on.
        most = max(rate(now), rate(now + planned / 2), rate(now + planned)) * 1.5 + 1e-9
        leak = now
        while True:
            leak += dice.exponential(1 / most)
            if leak > now + planned or dice.random() < rate(leak) / most:
                break
        off, reason = leak, RemovalReason.LEAK
        if leak > now + planned:
            off, reason = now + planned, RemovalReason.PLANNED
        yield Worn(day(now), day(off), reason)
        now = off


@dataclass(frozen=True)
class Sore:
    """Damaged skin as it is: from one border (hours, in parts) to another, so far out (mm)."""

    first: float = 3.6
    hours: float = 3.3
    outer_mm: float = 9.4


@dataclass(frozen=True)
class Hand:
    """How charting errs: ``share`` of the extent (standard error), and how often (0 to 1) a border
    is charted an hour off."""

    share: float
    hour_off: float


#: Two nurses, section 12 of the facts: 15 % of the area; hours as they lie, to the whole hour.
TWO_NURSES = Hand(0.15, 0.0)
#: One border in three an hour off besides.
ORDINARY = Hand(0.15, 1 / 3)


def charted(dice: Dice, sore: Sore, hand: Hand) -> Findings:
    """A visit's findings: whole hours, whole millimetres, with error."""
    borders = [sore.first, sore.first + sore.hours]
    start, end = (round(border + _off(dice, hand)) for border in borders)
    outer = max(1, round(sore.outer_mm * (1 + dice.normal(0, hand.share))))
    hours = ClockHours.of(*(hour_after(12, start + n) for n in range(max(1, end - start))))
    spot = SkinFinding(SkinKind.EROSION, hours, 0.0, float(outer), moist=True)
    return well(skin=(spot,))


def _off(dice: Dice, hand: Hand) -> int:
    if dice.random() >= hand.hour_off:
        return 0
    return 1 if dice.random() < 0.5 else -1


def visit(number: float, findings: Findings, *changed: str) -> SignedVisit:
    """A signed visit on a day."""
    return SignedVisit(day(number), findings, changed=changed)
