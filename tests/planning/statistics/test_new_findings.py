"""New findings over stoma-months, against published limits and SciPy."""

from __future__ import annotations

from collections.abc import Callable
from math import inf, nan
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import chi2

from planning.inputs.usable_numbers import UnusableNumber
from planning.statistics.new_findings import MONTH, Incidence, months_of, new_per_hundred_months
from planning.statistics.rates import compare_rates, proportion, rate_per_week
from planning.statistics.too_few import TooFew
from tests.planning.statistics.test_rates import GARWOOD


def incidence(new: int, months: float) -> Incidence:
    found = new_per_hundred_months(new, months * MONTH)
    assert isinstance(found, Incidence)
    return found


@pytest.mark.parametrize(("new", "low", "high"), GARWOOD)
def test_the_published_limits(new: int, low: float, high: float) -> None:
    """Garwood, Biometrika 1936;28:437: in 100 months the limits are those of the count itself."""
    found = incidence(new, 100)
    assert (found.per_hundred, found.months) == pytest.approx((new, 100))
    assert (found.low, found.high) == pytest.approx((low, high), abs=5e-5)


@given(st.integers(1, 400), st.floats(0.1, 5000))
def test_as_scipy_has_it(new: int, months: float) -> None:
    found = incidence(new, months)
    low, high = chi2.ppf(0.025, 2 * new) / 2, chi2.ppf(0.975, 2 * new + 2) / 2
    wanted = (100 * low / months, 100 * high / months)
    assert (found.low, found.high) == pytest.approx(wanted, rel=1e-9)


def test_none_new_is_not_never() -> None:
    found = incidence(0, 100)
    assert (found.low, found.high) == pytest.approx((0, 3.6889), abs=5e-5)


def test_a_year_is_twelve_months() -> None:
    assert months_of(365.25) == 12


def test_no_time_at_risk_gives_no_figure() -> None:
    assert new_per_hundred_months(0, 0) == TooFew(0, 1, "days at risk")


@pytest.mark.parametrize("wrong", [nan, inf, -inf, -1, 1.5])
@pytest.mark.parametrize(
    "asked",
    [
        lambda x: new_per_hundred_months(x, 30),
        lambda x: rate_per_week(x, 30),
        lambda x: proportion(x, 30),
        lambda x: proportion(1, x),
        lambda x: compare_rates(x, 30, 1, 30),
        lambda x: compare_rates(1, 30, x, 30),
    ],
)
def test_no_count_is_refused_by_name(asked: Callable[[Any], object], wrong: float) -> None:
    with pytest.raises(UnusableNumber, match="number"):
        asked(wrong)


@pytest.mark.parametrize("wrong", [nan, inf, -inf, -1])
@pytest.mark.parametrize(
    "asked",
    [
        lambda x: months_of(x),
        lambda x: new_per_hundred_months(1, x),
        lambda x: rate_per_week(1, x),
        lambda x: compare_rates(1, x, 1, 30),
        lambda x: compare_rates(1, 30, 1, x),
    ],
)
def test_no_time_is_refused_by_name(asked: Callable[[Any], object], wrong: float) -> None:
    with pytest.raises(UnusableNumber, match=r"days.*number"):
        asked(wrong)
