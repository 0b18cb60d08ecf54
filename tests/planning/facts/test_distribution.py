"""Where a finding lies: each limit of a share or a side, met and just missed."""

from __future__ import annotations

import pytest

from planning.facts.distribution import Shape, spread_of
from planning.inputs.clock import NOWHERE, ClockHours
from planning.inputs.findings import SkinKind
from tests.planning.builders import ALL, LOW, seen

arc, of = ClockHours.arc, ClockHours.of


@pytest.mark.parametrize(
    ("hours", "creases", "outline", "shape"),
    [
        (LOW, NOWHERE, None, Shape.LOWEST_SIDE),
        (arc(5, 7), NOWHERE, None, Shape.LOWEST_SIDE),
        (arc(10, 2), NOWHERE, None, Shape.ONE_SIDE),
        (of(3, 9), of(3, 9), None, Shape.ALONG_CREASE),
        (of(3, 9), NOWHERE, None, Shape.PATCHY),
        (ALL, NOWHERE, None, Shape.ALL_ROUND),
        (ALL - of(1, 2), NOWHERE, None, Shape.ALL_ROUND),
        (ALL - of(1, 2, 3), NOWHERE, None, Shape.PATCHY),
        (ALL, NOWHERE, True, Shape.BARRIER_SHAPED),
        (ALL, NOWHERE, False, Shape.ALL_ROUND),
        (LOW, NOWHERE, True, Shape.LOWEST_SIDE),
    ],
)
def test_the_shape_follows_from_the_hours(
    hours: ClockHours, creases: ClockHours, outline: bool | None, shape: Shape
) -> None:
    finding = seen(SkinKind.ERYTHEMA, hours, product_outline=outline)
    assert spread_of(finding, creases).shape is shape


@pytest.mark.parametrize(
    ("creases", "share", "shape"),
    [
        (arc(10, 12), 0.75, Shape.ALONG_CREASE),
        (arc(8, 12), 0.75, Shape.ALONG_CREASE),
        (arc(10, 11), 0.5, Shape.ONE_SIDE),
        (arc(4, 6), 0.0, Shape.ONE_SIDE),
    ],
)
def test_three_quarters_of_a_finding_in_a_crease_lie_along_it(
    creases: ClockHours, share: float, shape: Shape
) -> None:
    """By hand: the finding holds four hours, 10 to 1; 3 of 4 are the limit of 0.75. A crease may
    be longer than the finding; only the finding's own hours count."""
    found = spread_of(seen(SkinKind.ERYTHEMA, arc(10, 1)), creases)
    assert found.crease_share == share
    assert found.shape is shape


def test_five_of_seven_hours_in_a_crease_are_not_along_it() -> None:
    """By hand: 9 to 1 of 9 to 3 are 0.714, under 0.75."""
    assert spread_of(seen(SkinKind.ERYTHEMA, arc(9, 3)), arc(9, 1)).shape is Shape.ONE_SIDE


@pytest.mark.parametrize(
    ("hours", "share", "shape"),
    [
        (arc(6, 10), 3 / 5, Shape.LOWEST_SIDE),
        (arc(2, 6), 3 / 5, Shape.LOWEST_SIDE),
        (arc(5, 11), 4 / 7, Shape.ONE_SIDE),
        (arc(7, 10), 2 / 4, Shape.ONE_SIDE),
        (arc(7, 11), 2 / 5, Shape.ONE_SIDE),
        (arc(10, 2), 0.0, Shape.ONE_SIDE),
    ],
)
def test_three_fifths_of_a_finding_at_4_to_8_make_the_lowest_side(
    hours: ClockHours, share: float, shape: Shape
) -> None:
    """By hand: 6, 7, 8 of 6 to 10 are 3 of 5, the limit of 0.6; 7, 8 of 7 to 10 are 2 of 4."""
    found = spread_of(seen(SkinKind.ERYTHEMA, hours))
    assert found.lowest_share == share
    assert found.shape is shape


@pytest.mark.parametrize(
    ("hours", "shape"),
    [
        (arc(9, 3), Shape.ONE_SIDE),
        (arc(9, 4), Shape.PATCHY),
        (arc(3, 9), Shape.LOWEST_SIDE),
        (arc(3, 10), Shape.PATCHY),
        (of(11, 1), Shape.PATCHY),
        (of(4, 5, 9), Shape.PATCHY),
    ],
)
def test_a_side_is_one_piece_of_at_most_seven_hours(hours: ClockHours, shape: Shape) -> None:
    """Concentration of n hours in a row, sin(15 n) / (n sin 15), corrected by 1.0115: 0.539 for
    seven, 0.423 for eight; the limit is 0.5. 3 to 10 holds 5 of 8 lowest hours and is no side.
    11 and 1 without 12 point one way, but are two pieces. 4, 5 and 9 hold two of the lowest hours
    but point apart: root 2 / 3, corrected 0.477."""
    assert spread_of(seen(SkinKind.ERYTHEMA, hours)).shape is shape


def test_all_round_goes_before_a_crease_and_a_crease_before_the_lowest_side() -> None:
    assert spread_of(seen(SkinKind.ERYTHEMA, ALL), ALL).shape is Shape.ALL_ROUND
    assert spread_of(seen(SkinKind.ERYTHEMA, LOW), LOW).shape is Shape.ALONG_CREASE


def test_a_finding_without_hours_has_no_share_of_any() -> None:
    found = spread_of(seen(SkinKind.ERYTHEMA, NOWHERE), ALL)
    assert (found.lowest_share, found.crease_share, found.shape) == (0, 0, Shape.PATCHY)
