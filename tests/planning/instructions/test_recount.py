"""Supplies counted for another change day: as the plan itself would, or not known."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planning import Plan, recommend
from planning.inputs.findings import Accessory, Pieces, PouchKind, StomaKind
from planning.instructions.recount import by_change, recounted
from planning.results.plan import Quantity
from tests.planning.builders import leaking, well
from tests.planning.sweep import planned


def by_key(plan: Plan) -> dict[str, Quantity]:
    return {line.supply_key: line for line in plan.quantities}


def without_log(plan: Plan) -> tuple[Quantity, ...]:
    """What a log adds to an amount is left out: another day than the log's was decided."""
    return tuple(replace(line, until_at_most=None, cap_note=None) for line in plan.quantities)


def test_counted_as_the_plan_counts() -> None:
    """For the plan's own days the same amounts, over the sweep."""
    counted = 0
    for _, _, plan in planned(600):
        if plan.expected_wear is None or not plan.quantities:
            continue
        again = recounted(plan, plan.expected_wear.days)
        mine = {line.supply_key: line for line in without_log(again)}
        for line in without_log(plan):
            same = mine[line.supply_key]
            assert same.per_month == line.per_month
            assert same.until_next_visit == line.until_next_visit
            assert same.per_change == line.per_change
            assert bool(same.over_maximum) == bool(line.over_maximum)
            counted += 1
    assert counted > 500


def test_every_two_days_instead_of_three() -> None:
    """7 days by 2 and one spare; 30 by 2. Raw skin was planned at day 3."""
    plan = recommend(leaking())
    line = by_key(recounted(plan, 2.0))["barrier"]
    assert by_key(plan)["barrier"].per_month == 10
    assert (line.until_next_visit, line.per_month) == (5, 15)
    again = recounted(plan, 2.0).expected_wear
    assert again is not None
    assert again.text == "Counted for a change every 2 days, as the clinician decided."


def test_the_note_on_the_maximum_and_its_notice_follow() -> None:
    plan = recommend(leaking())
    daily = recounted(plan, 1.0)
    film = by_key(daily)["protectant"]
    assert "a barrier every day" in (film.cap_note or "")
    said = [reason.text for reason in daily.notices]
    assert f"{film.text}: {film.cap_note}" in said
    rare = recounted(daily, 7.0)
    assert not [reason for reason in rare.notices if "every day" in reason.text]
    assert by_key(rare)["protectant"].over_maximum is False


def test_not_known_is_never_the_planned_amount() -> None:
    plan = recommend(leaking(accessories=frozenset({Accessory.BELT})))
    unknown = recounted(plan, None)
    for before, line in zip(plan.quantities, unknown.quantities, strict=True):
        assert line.cap_note is None
        if by_change(before):
            assert (line.until_next_visit, line.until_at_most, line.per_month) == (None,) * 3
        else:
            assert line.until_next_visit == before.until_next_visit
    assert unknown.expected_wear is None
    assert not [reason for reason in unknown.notices if "usual maximum" in reason.text]


def test_closed_pouches_go_by_the_day_here_too() -> None:
    plan = recommend(well(kind=StomaKind.COLOSTOMY, pouch=PouchKind.CLOSED, pieces=Pieces.TWO))
    assert by_key(recounted(plan, 3.0))["pouch"].per_month == 60
    assert by_key(recounted(plan, 3.0))["barrier"].per_month == 10


@pytest.mark.parametrize("days", [0.0, 0.5, 0.95, 14.5, -1.0])
def test_days_that_no_barrier_is_worn(days: float) -> None:
    with pytest.raises(ValueError, match="No barrier is changed every"):
        recounted(recommend(leaking()), days)
