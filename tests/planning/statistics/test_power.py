"""Weeks until a halving shows, against the chance summed up outcome by outcome."""

from __future__ import annotations

import pytest
from scipy.stats import poisson

from planning.statistics.power import weeks_to_show
from planning.statistics.rates import RateRatio, compare_rates

HOW = {"level": 0.0221, "power": 0.8, "most": 12}


def shown(events: int, days: float, times: float, weeks: int) -> float:
    """The chance that the interval is beyond 1, every outcome by itself."""
    after = 7.0 * weeks
    mean = events / days * after * times
    found = 0.0
    for many in range(int(mean) * 4 + 40):
        told = compare_rates(events, days, many, after, confidence=1 - 0.0221)
        assert isinstance(told, RateRatio)
        found += float(poisson.pmf(many, mean)) if told.high < 1 else 0.0
    return found


@pytest.mark.parametrize(("events", "days", "weeks"), [(84, 84.0, 7), (60, 28.0, 3)])
def test_the_first_week_with_that_chance(events: int, days: float, weeks: int) -> None:
    assert weeks_to_show(events, days, 0.5, **HOW) == weeks
    assert shown(events, days, 0.5, weeks) >= 0.8 > shown(events, days, 0.5, weeks - 1)


def test_with_few_leaks_before_no_halving_shows() -> None:
    assert weeks_to_show(7, 28.0, 0.5, **HOW) is None
    assert shown(7, 28.0, 0.5, 12) < 0.8
    assert weeks_to_show(0, 28.0, 0.5, **HOW) is None


def test_more_leaks_before_show_it_no_later_and_a_drift_no_sooner() -> None:
    found = [weeks_to_show(many, 84.0, 0.5, **HOW) or 99 for many in (40, 80, 160)]
    assert found == sorted(found, reverse=True)
    drifting = weeks_to_show(84, 84.0, 0.5, **HOW, drift_after=lambda _: 0.1)
    assert (drifting or 99) > 7
