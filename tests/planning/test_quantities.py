"""Quantities: caps, months, codes without a figure."""

from __future__ import annotations

from typing import Any

import pytest

from planning import recommend
from planning.findings import (
    Accessory,
    Firmness,
    Pieces,
    PouchKind,
    RemovalReason,
    StomaKind,
    WearEpisode,
)
from planning.plan import Quantity
from planning.quantities import LINES
from tests.planning.builders import leaking, well


def lines(**changes: Any) -> dict[str, Quantity]:
    return {q.supply_key: q for q in recommend(well(**changes)).quantities}


def worn(days: float, times: int = 4) -> tuple[WearEpisode, ...]:
    return (WearEpisode(days, RemovalReason.PLANNED),) * times


@pytest.mark.parametrize(
    ("days", "month"), [(1.5, 20), (2.0, 15), (3.0, 10), (4.0, 8), (5.0, 6), (7.0, 5)]
)
def test_changes_a_month(days: float, month: int) -> None:
    """Arithmetic: ceil(30 / wear days) changes a month."""
    barrier = lines(wear=worn(days))["barrier"]
    assert barrier.per_month == month
    assert barrier.over_maximum is False


def test_over_the_usual_maximum_is_said() -> None:
    plan = recommend(well(wear=worn(1.25)))
    barrier = next(q for q in plan.quantities if q.supply_key == "barrier")
    assert (barrier.per_month, barrier.usual_monthly_maximum) == (24, 20)
    assert barrier.over_maximum


def test_a_code_without_a_figure_has_no_cap() -> None:
    """US coverage rule L33828 names no figure for it: no stated cap, never 0."""
    sachets = lines(accessories=frozenset({Accessory.THICKENER}))["thickener"]
    assert sachets.code == "A4422"
    assert sachets.usual_monthly_maximum is None
    assert sachets.over_maximum is None


def test_no_cap_is_ever_zero() -> None:
    assert all(line.maximum is None or line.maximum > 0 for line in LINES.values())


def test_six_month_maxima_are_divided() -> None:
    """10 oz of powder and 150 wipes in 6 months."""
    assert LINES["powder"].maximum == pytest.approx(1.67, abs=0.005)
    assert LINES["protectant"].maximum == 25


def test_until_the_next_visit_with_one_spare() -> None:
    plan = recommend(leaking(wear=worn(3.0)))
    barrier = next(q for q in plan.quantities if q.supply_key == "barrier")
    assert plan.follow_up.in_days == 7
    assert barrier.until_next_visit == 3 + 1


def test_what_is_used_by_feel_is_not_counted() -> None:
    powder = {q.supply_key: q for q in recommend(leaking()).quantities}["powder"]
    assert powder.per_month is None
    assert powder.until_next_visit is None


def test_a_belt_is_counted_once() -> None:
    plan = recommend(leaking(protrusion_mm=0.0, firmness=Firmness.SOFT))
    belt = next(q for q in plan.quantities if q.supply_key == "belt")
    assert (belt.per_month, belt.code) == (1, "A4367")


def test_closed_pouches_go_by_the_day() -> None:
    found = lines(kind=StomaKind.COLOSTOMY, pouch=PouchKind.CLOSED, wear=worn(3.0))
    assert found["pouch"].per_month == 60
    assert found["barrier"].per_month == 10


def test_one_piece_has_no_pouch_of_its_own() -> None:
    found = lines(pieces=Pieces.ONE)
    assert "pouch" not in found
    assert found["barrier"].code == "A4424"


def test_few_barriers_say_too_little_and_the_published_mean_stands() -> None:
    """Richbourg 2008 (from memory): ileostomy 5.01 days."""
    assert lines(wear=worn(2.0, times=2))["barrier"].per_month == 6
