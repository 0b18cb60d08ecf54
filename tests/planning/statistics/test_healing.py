"""Stretches of damaged skin, by hand, and into a curve."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from planning.statistics.healing import Healing, healing
from planning.statistics.survival import SurvivalCurve, kaplan_meier

START = date(2026, 3, 1)

Seen = list[tuple[int, float | None]]


def stretches(seen: Seen) -> list[tuple[int, int, bool]]:
    found = healing([(START + timedelta(day), burden) for day, burden in seen])
    return [((h.start - START).days, h.days, h.healed) for h in found]


@pytest.mark.parametrize(
    ("seen", "found"),
    [
        ([], []),
        ([(0, 0.0), (7, 0.0)], []),
        ([(0, 300.0), (7, 120.0), (21, 0.0)], [(0, 21, True)]),
        ([(0, 0.0), (7, 120.0), (21, 60.0)], [(7, 14, False)]),
        ([(0, 120.0)], [(0, 0, False)]),
        # Not recorded neither heals nor goes on.
        ([(0, 120.0), (7, None), (14, 0.0)], [(0, 14, True)]),
        ([(0, 120.0), (7, 90.0), (14, None)], [(0, 7, False)]),
        ([(0, None), (7, 0.0)], []),
        # Healed, and damaged again.
        ([(0, 50.0), (7, 0.0), (20, 80.0), (30, 0.0)], [(0, 7, True), (20, 10, True)]),
        # In any order.
        ([(21, 0.0), (0, 300.0)], [(0, 21, True)]),
    ],
)
def test_stretches(seen: Seen, found: list[tuple[int, int, bool]]) -> None:
    assert stretches(seen) == found


def test_they_make_a_curve() -> None:
    """Worked by hand: 7, 14, 14+, 21, 28 days: 4/5, 3/5, then 1/2 of 3/5 = 0.3."""
    rows = [
        Healing(START, 7, True),
        Healing(START, 14, True),
        Healing(START, 14, False),
        Healing(START, 21, True),
        Healing(START, 28, True),
    ]
    curve = kaplan_meier([r.days for r in rows], [r.healed for r in rows])
    assert isinstance(curve, SurvivalCurve)
    assert curve.survival == pytest.approx((0.8, 0.6, 0.3, 0))
    assert curve.median.value == 21
