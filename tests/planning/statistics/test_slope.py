"""Theil-Sen against published examples."""

from __future__ import annotations

import pytest

from planning.statistics.slope import Slope, theil_sen
from planning.statistics.too_few import TooFew


def slope(days: list[float], values: list[float]) -> Slope:
    found = theil_sen(days, values)
    assert isinstance(found, Slope)
    return found


def test_sen_1968() -> None:
    """Sen, J Am Stat Assoc 1968;63:1379: slope 4, interval 26/7 to 35/8."""
    found = slope([1, 2, 3, 4, 10, 12, 18], [9, 15, 19, 20, 45, 55, 78])
    assert (found.per_day, found.low, found.high) == pytest.approx((4, 26 / 7, 35 / 8))
    assert found.n == 7


def test_hollander_and_wolfe() -> None:
    """Hollander and Wolfe, Nonparametric Statistical Methods, example 9.1: -0.05625."""
    found = slope([1, 2, 3, 4, 5], [1.26, 1.27, 1.12, 1.16, 1.03])
    assert found.per_day == pytest.approx(-0.05625)


def test_fifteen_pairs() -> None:
    """The worked example of statpsych's ci.theil: 0.5 (0.32432 to 0.75)."""
    x: list[float] = [67, 28, 30, 28, 52, 40, 25, 37, 44, 10, 14, 20, 28, 40, 51]
    y: list[float] = [21, 4, 9, 12, 35, 18, 10, 22, 24, 1, 6, 8, 13, 16, 19]
    found = slope(x, y)
    assert (found.per_day, found.low, found.high) == pytest.approx((0.5, 0.32432, 0.75), abs=5e-6)


def test_real_days_count_not_visits() -> None:
    """Invented widths on unequal days: -0.4722 mm a week; by visit number it would be -1.633 a
    visit (agreed by two libraries)."""
    days: list[float] = [7, 14, 28, 42, 70, 98, 140, 182]
    found = slope(days, [41, 39, 37, 35, 33, 32, 31, 31])
    assert found.per_day == pytest.approx(-0.067460, abs=5e-7)
    assert (found.low, found.high) == pytest.approx((-0.142857, -0.028571), abs=5e-7)


def test_one_odd_value_hardly_moves_it() -> None:
    straight = slope([0, 7, 14, 21, 28, 35, 42], [30, 29, 28, 27, 26, 25, 24])
    odd = slope([0, 7, 14, 21, 28, 35, 42], [30, 29, 28, 90, 26, 25, 24])
    assert odd.per_day == pytest.approx(straight.per_day)


@pytest.mark.parametrize("days", [[], [1], [1, 2, 3, 4], [1, 1, 2, 2, 3, 3, 4]])
def test_too_few_different_days(days: list[float]) -> None:
    found = theil_sen(days, [30.0] * len(days))
    assert found == TooFew(len(set(days)), 5, "days with a value")


def test_two_values_of_one_day_are_used() -> None:
    assert slope([1, 1, 2, 3, 4, 5], [10, 12, 11, 12, 13, 14]).n == 6


def test_unequal_lengths_are_refused() -> None:
    with pytest.raises(ValueError, match="values"):
        theil_sen([1, 2], [1])
