"""Shrinking after surgery and settling, either side of each limit."""

from __future__ import annotations

from datetime import date, timedelta
from math import pi, sqrt

import pytest

from planning.statistics.shrinkage import Shrinkage, Sized, settled_on, shrinkage
from planning.statistics.too_few import TooFew

SURGERY = date(2026, 1, 1)


def sized(after: int, length: float, width: float | None = None) -> Sized:
    return Sized(SURGERY + timedelta(after), length, length if width is None else width)


def test_across_is_the_circle_of_the_same_area() -> None:
    """Area of an ellipse is pi a b: 49 by 36 mm has that of a circle 42 mm across."""
    assert pi * (sized(1, 49, 36).across_mm / 2) ** 2 == pytest.approx(pi * 49 / 2 * 36 / 2)


def test_what_is_left_of_the_first_size() -> None:
    found = shrinkage([sized(40, 32, 32), sized(5, 40, 40), sized(20, 36, 36)], SURGERY)
    assert isinstance(found, Shrinkage)
    assert found.share == pytest.approx(0.8)
    assert (found.first.day, found.latest.day) == (sized(5, 1).day, sized(40, 1).day)


def test_both_axes_count() -> None:
    found = shrinkage([sized(5, 40, 40), sized(40, 40, 20)], SURGERY)
    assert isinstance(found, Shrinkage)
    assert found.share == pytest.approx(sqrt(0.5))


@pytest.mark.parametrize(("first", "known"), [(56, True), (57, False)])
def test_a_first_size_is_one_of_the_first_eight_weeks(first: int, known: bool) -> None:
    found = shrinkage([sized(first, 40), sized(first + 30, 38)], SURGERY)
    assert isinstance(found, Shrinkage) is known


def test_a_size_before_this_surgery_is_not_a_first_one() -> None:
    found = shrinkage([sized(-10, 60), sized(5, 40), sized(20, 36)], SURGERY)
    assert isinstance(found, Shrinkage)
    assert found.share == pytest.approx(0.9)


def test_without_the_day_of_surgery_nothing_is_said() -> None:
    assert shrinkage([sized(5, 40), sized(20, 36)], None) is None
    assert shrinkage([], SURGERY) is None


def test_one_size_is_too_few() -> None:
    assert shrinkage([sized(5, 40), sized(5, 39)], SURGERY) == TooFew(1, 2, "days with a size")


@pytest.mark.parametrize(
    ("sizes", "settled"),
    [
        ([sized(42, 30), sized(56, 30)], 56),  # fourteen days apart, eight weeks after
        ([sized(43, 30), sized(56, 30)], None),  # thirteen days apart
        ([sized(41, 30), sized(55, 30)], None),  # a day short of eight weeks
        ([sized(42, 30), sized(50, 31), sized(56, 30)], None),  # another size in between
        ([sized(42, 30, 28), sized(56, 30, 27)], None),  # one axis still moves
        ([sized(42, 30), sized(56, 30), sized(90, 30)], 56),  # the first day it was known
        ([sized(42, 30), sized(56, 30), sized(90, 28)], None),  # moved again
        ([sized(60, 30)], None),
        ([], None),
    ],
)
def test_settled_after_two_equal_sizes(sizes: list[Sized], settled: int | None) -> None:
    day = None if settled is None else SURGERY + timedelta(settled)
    assert settled_on(sizes, SURGERY) == day
