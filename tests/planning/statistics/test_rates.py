"""Exact intervals of counts against published tables and closed forms."""

from __future__ import annotations

from math import comb, exp, factorial, inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import binomtest

from planning.inputs.usable_numbers import UnusableNumber
from planning.statistics.rates import (
    Rate,
    RateRatio,
    Share,
    compare_rates,
    proportion,
    rate_per_week,
)
from planning.statistics.too_few import TooFew

#: Garwood 1936 (two-sided 95 %), events in one unit of time.
GARWOOD = [
    (0, 0, 3.6889),
    (1, 0.0253, 5.5716),
    (2, 0.2422, 7.2247),
    (3, 0.6187, 8.7673),
    (4, 1.0899, 10.2416),
    (5, 1.6235, 11.6683),
    (6, 2.2019, 13.0595),
    (7, 2.8144, 14.4227),
    (8, 3.4538, 15.7632),
    (9, 4.1154, 17.0848),
    (10, 4.7954, 18.3904),
    (25, 16.1787, 36.9049),
]


def rate(events: int, days: float) -> Rate:
    found = rate_per_week(events, days)
    assert isinstance(found, Rate)
    return found


@pytest.mark.parametrize(("events", "low", "high"), GARWOOD)
def test_the_published_limits(events: int, low: float, high: float) -> None:
    """Garwood, Biometrika 1936;28:437."""
    found = rate(events, 7)
    assert (found.low, found.high) == pytest.approx((low, high), abs=5e-5)


def test_four_leaks_in_61_days() -> None:
    found = rate(4, 61)
    assert found.per_week == pytest.approx(0.4590, abs=5e-5)
    assert (found.low, found.high) == pytest.approx((0.1251, 1.1753), abs=5e-5)


def test_no_leak_in_84_days_is_not_no_leaks_for_ever() -> None:
    """Two-sided: the one-sided limit would be 2.9957 a unit, 0.2496 a week here."""
    found = rate(0, 84)
    assert (found.per_week, found.low) == (0, 0)
    assert found.high == pytest.approx(0.3074, abs=5e-5)


@given(st.integers(1, 60))
def test_the_limits_leave_a_fortieth_on_either_side(events: int) -> None:
    """The definition itself: Poisson sums written out."""
    found = rate(events, 7)
    below = sum(exp(-found.low) * found.low**i / factorial(i) for i in range(events))
    above = sum(exp(-found.high) * found.high**i / factorial(i) for i in range(events + 1))
    assert (1 - below, above) == pytest.approx((0.025, 0.025), abs=1e-9)


def test_no_day_watched_gives_no_rate() -> None:
    assert rate_per_week(0, 0) == TooFew(0, 1, "days watched")


@pytest.mark.parametrize(("events", "days"), [(-1, 7), (1, -7)])
def test_nonsense_is_refused(events: int, days: float) -> None:
    with pytest.raises(UnusableNumber):
        rate_per_week(events, days)


def test_the_published_comparison() -> None:
    """Lung cancer in four Danish cities (eba1977), as R's poisson.test prints it: 11 in 800
    against 21 in 3011, rate ratio 1.971488 (0.8584264 to 4.2772659). Its p, 0.07967, adds up what
    is less likely; ours is twice the tail, as SciPy gives it, and goes with the interval."""
    found = compare_rates(21, 3011, 11, 800)
    assert isinstance(found, RateRatio)
    assert found.ratio == pytest.approx(1.971488, abs=5e-7)
    assert (found.low, found.high) == pytest.approx((0.8584264, 4.2772659), abs=5e-7)
    tail = binomtest(11, 32, 800 / 3811, alternative="greater").pvalue
    assert found.p == pytest.approx(2 * tail, abs=1e-9)
    assert found.p > 0.07967


@pytest.mark.parametrize(
    ("counts", "confidence", "ratio", "low", "high"),
    [
        ((6, 20, 4, 20), 0.95, 0.667, 0.138, 2.811),
        ((12, 40, 2, 40), 0.95, 0.167, 0.018, 0.749),
        ((40, 200, 38, 200), 0.90, 0.95, 0.638, 1.414),
    ],
)
def test_the_check_values_of_the_facts(
    counts: tuple[int, float, int, float], confidence: float, ratio: float, low: float, high: float
) -> None:
    """danger-restraint-teaching.md, section 13: leaks, exact conditional, after/before [C]."""
    found = compare_rates(*counts, confidence=confidence)
    assert isinstance(found, RateRatio)
    assert (found.ratio, found.low, found.high) == pytest.approx((ratio, low, high), abs=5e-4)


@given(st.integers(0, 30), st.integers(0, 30), st.floats(1, 90), st.floats(1, 90))
@settings(max_examples=60)
def test_the_p_value_and_the_interval_never_contradict_one_another(
    before: int, after: int, long: float, short: float
) -> None:
    found = compare_rates(before, long, after, short, confidence=1 - 0.0221)
    if isinstance(found, TooFew):
        return
    beyond = not found.low <= 1 <= found.high
    assert beyond is (found.p < 0.0221)


def test_a_drift_of_the_rates_widens_the_interval_and_moves_nothing() -> None:
    """By hand: 40 and 40 in equal time: 1/40 + 1/40 = 0.05; a drift of root 0.05 halves what
    counts, as 20 and 20 would."""
    drifting = compare_rates(40, 10, 40, 10, drift=0.05**0.5)
    half = compare_rates(20, 10, 20, 10)
    assert isinstance(drifting, RateRatio)
    assert isinstance(half, RateRatio)
    assert (drifting.ratio, drifting.low, drifting.high) == pytest.approx(
        (half.ratio, half.low, half.high)
    )


@given(st.integers(0, 20), st.integers(0, 20), st.integers(1, 9), st.integers(1, 9))
@settings(max_examples=60)
def test_the_comparison_written_out(before: int, after: int, long: int, short: int) -> None:
    """Closed form: at each limit of the ratio, a fortieth of the binomial lies beyond."""
    found = compare_rates(before, long, after, short)
    if not before + after:
        assert isinstance(found, TooFew)
        return
    assert isinstance(found, RateRatio)
    total = before + after

    def share(ratio: float) -> float:
        return ratio * short / (ratio * short + long)

    def upto(k: int, p: float) -> float:
        return sum(comb(total, i) * p**i * (1 - p) ** (total - i) for i in range(k + 1))

    if before:
        assert upto(after, share(found.high)) == pytest.approx(0.025, abs=1e-9)
    else:
        assert (found.ratio, found.high) == (inf, inf)
    if after:
        assert upto(after - 1, share(found.low)) == pytest.approx(0.975, abs=1e-9)
    else:
        assert (found.ratio, found.low) == (0, 0)


def test_the_same_rate_is_no_difference() -> None:
    found = compare_rates(8, 40, 4, 20)
    assert isinstance(found, RateRatio)
    assert (found.ratio, found.p) == pytest.approx((1, 1))


@pytest.mark.parametrize(("before", "after"), [(0, 20), (20, 0)])
def test_one_side_never_watched(before: float, after: float) -> None:
    assert compare_rates(1, before, 1, after) == TooFew(0, 1, "days watched before and after")


def test_nothing_happened_on_either_side() -> None:
    assert compare_rates(0, 10, 0, 10) == TooFew(0, 1, "events before or after")


@pytest.mark.parametrize(
    ("k", "n", "low", "high"),
    [
        # Closed forms: none of n gives 1 - 0.025^(1/n) above; all of n its mirror.
        (0, 10, 0.0, 1 - 0.025**0.1),
        (10, 10, 0.025**0.1, 1.0),
        (1, 1, 0.025, 1.0),
        # Newcombe, Stat Med 1998;17:857, method 5 (Clopper-Pearson), 81 of 263 and 15 of 148.
        (81, 263, 0.2527, 0.3676),
        (15, 148, 0.0578, 0.1617),
    ],
)
def test_exact_shares(k: int, n: int, low: float, high: float) -> None:
    found = proportion(k, n)
    assert isinstance(found, Share)
    assert found.value == k / n
    assert (found.low, found.high) == pytest.approx((low, high), abs=5e-5)


def test_a_share_of_nothing() -> None:
    assert proportion(0, 0) == TooFew(0, 1, "counted")


@pytest.mark.parametrize(("k", "n"), [(2, 1), (-1, 3)])
def test_no_share_outside_the_whole(k: int, n: int) -> None:
    with pytest.raises(ValueError, match=r"share|from 0"):
        proportion(k, n)
