"""The clock face as a value object."""

import pytest

from planning.inputs.clock import (
    GROUPING_CORRECTION,
    HOURS,
    NOWHERE,
    ClockHours,
    degrees,
    hour_after,
)


@pytest.mark.parametrize(
    ("first", "last", "hours"),
    [(4, 8, {4, 5, 6, 7, 8}), (10, 2, {10, 11, 12, 1, 2}), (12, 12, {12}), (1, 12, set(HOURS))],
)
def test_an_arc_runs_clockwise_and_holds_both_ends(first: int, last: int, hours: set[int]) -> None:
    assert ClockHours.arc(first, last).hours == hours


@pytest.mark.parametrize("wrong", [0, 13, -1, 1.0, True, "3"])
def test_anything_but_a_whole_hour_is_refused(wrong: object) -> None:
    with pytest.raises(ValueError, match="1 to 12"):
        ClockHours(frozenset({wrong}))  # type: ignore[arg-type]


def test_opposite_and_mirror() -> None:
    assert ClockHours.of(2, 3).opposite() == ClockHours.of(8, 9)
    assert ClockHours.of(1, 3, 6, 12).mirrored() == ClockHours.of(11, 9, 6, 12)


def test_complement_and_coverage() -> None:
    half = ClockHours.arc(1, 6)
    assert half.complement() == ClockHours.arc(7, 12)
    assert half.coverage == 0.5


def test_unbroken_runs_cross_twelve() -> None:
    assert ClockHours.of(11, 12, 1, 5).arcs() == ((5, 5), (11, 1))


@pytest.mark.parametrize(
    ("hours", "words"),
    [
        (NOWHERE, "none"),
        (ClockHours.all_round(), "all round"),
        (ClockHours.of(12), "12 o'clock"),
        (ClockHours.of(3, 9), "3 and 9 o'clock"),
        (ClockHours.of(1, 4, 5, 9), "1, 4 to 5 and 9 o'clock"),
    ],
)
def test_words(hours: ClockHours, words: str) -> None:
    assert hours.words() == words


@pytest.mark.parametrize(
    ("hours", "words"),
    [
        (NOWHERE, ""),
        (ClockHours.all_round(), " all round"),
        (ClockHours.of(12), " at 12 o'clock"),
        (ClockHours.arc(4, 8), " at 4 to 8 o'clock"),
    ],
)
def test_said_straight_after_what_lies_there(hours: ClockHours, words: str) -> None:
    assert hours.placed() == words


def test_the_mean_of_eleven_twelve_one_is_twelve_not_eight() -> None:
    """The plain mean of the clock numbers would give 8."""
    assert ClockHours.of(11, 12, 1).mean_hour == pytest.approx(12.0)


def test_opposed_hours_have_no_direction() -> None:
    assert ClockHours.of(3, 9).mean_hour is None
    assert ClockHours.all_round().mean_hour is None
    assert ClockHours.all_round().concentration == 0.0


def test_grouping_factor_for_twelve_sectors() -> None:
    """Zar, Biostatistical Analysis, 5th ed.: c = 1.01152 for k = 12."""
    assert pytest.approx(1.01152, abs=5e-6) == GROUPING_CORRECTION


def test_hours_and_degrees() -> None:
    assert hour_after(12) == 1
    assert hour_after(1, -1) == 12
    assert degrees(12) == 0.0
    assert degrees(3) == 90.0
