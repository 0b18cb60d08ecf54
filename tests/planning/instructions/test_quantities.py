"""Quantities: caps, months, codes without a figure."""

from __future__ import annotations

import math
from statistics import mean, stdev
from typing import Any

import pytest
from scipy import stats
from scipy.special import stdtrit

from planning import Plan, recommend
from planning.inputs.findings import (
    Accessory,
    Pieces,
    PouchKind,
    RemovalReason,
    StomaKind,
    WearEpisode,
)
from planning.instructions.quantities import LINES, all_lines
from planning.results.plan import ExpectedWear, Quantity
from tests.planning.builders import leaking, well
from tests.planning.sweep import planned


def lines(**changes: Any) -> dict[str, Quantity]:
    return {q.supply_key: q for q in recommend(well(**changes)).quantities}


FILM_AND_POWDER = frozenset({Accessory.PROTECTANT, Accessory.POWDER})


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


# --- an amount and what is said of its maximum agree -------------------------------------------
def capped(plan: Plan) -> dict[str, str]:
    return {q.supply_key: q.cap_note for q in plan.quantities if q.cap_note}


def cap_notices(plan: Plan) -> list[str]:
    return [n.text for n in plan.notices if n.sources == ("lcd/maxima",)]


@pytest.mark.parametrize(("days", "month", "over"), [(4.0, 24, False), (3.5, 27, True)])
def test_film_with_powder_against_its_own_maximum(days: float, month: int, over: bool) -> None:
    """150 wipes in 6 months: 25 a month; three a change with powder."""
    plan = recommend(leaking(wear=worn(days)))
    assert "protectant" in plan.supplies
    film = next(q for q in plan.quantities if q.supply_key == "protectant")
    #: Raw skin is changed every 3 days at the latest, so the amount goes by 3 days.
    assert film.per_month == 30
    assert "30 a month (3 a change, a barrier every 3 days)" in (film.cap_note or "")
    assert any("30 a month" in text for text in cap_notices(plan))
    free = recommend(well(wear=worn(days), accessories=FILM_AND_POWDER))
    kept = next(q for q in free.quantities if q.supply_key == "protectant")
    assert free.leave_alone
    assert kept.per_month == month
    assert ("protectant" in capped(free)) is over
    assert (kept.over_maximum is True) is over


def test_a_good_fit_shows_its_maximum_too() -> None:
    plan = recommend(well(wear=worn(1.25)))
    assert plan.leave_alone
    assert cap_notices(plan) == [f"Flat barrier: {capped(plan)['barrier']}",
                                 f"Two-piece drainable pouch: {capped(plan)['pouch']}"]  # fmt: skip
    assert cap_notices(recommend(well(wear=worn(1.5)))) == []


def test_only_the_short_end_over_the_maximum_is_called_that() -> None:
    """Expected 1.9 days: 16 a month; at 1.2 days 25, over 20."""
    days = (1.2, 1.2, 2.6, 2.6)
    plan = recommend(well(wear=tuple(WearEpisode(d, RemovalReason.PLANNED) for d in days)))
    barrier = next(q for q in plan.quantities if q.supply_key == "barrier")
    assert (barrier.per_month, barrier.over_maximum) == (16, False)
    assert "up to 25 a month, should barriers last only 1.2 days" in (barrier.cap_note or "")


def test_lines_of_one_code_count_together() -> None:
    """Ring and half ring are ordered under A4404: 10 a month for both."""
    both = frozenset({Accessory.RING, Accessory.HALF_RING})
    alone = recommend(well(wear=worn(3.5), accessories=frozenset({Accessory.RING})))
    assert "ring" not in capped(alone)
    plan = recommend(well(wear=worn(3.5), accessories=both))
    amounts = {q.supply_key: q.per_month for q in plan.quantities}
    assert (amounts["ring"], amounts["half_ring"]) == (9, 5)
    assert "14 a month" in capped(plan)["ring"]
    halved = "Mouldable ring to halve (counted in whole rings)"
    assert f"counted with {halved} under one code" in capped(plan)["ring"]


def test_a_code_without_a_figure_has_no_cap() -> None:
    """US coverage rule L33828 names no figure for it: no stated cap, never 0."""
    sachets = lines(accessories=frozenset({Accessory.THICKENER}))["thickener"]
    assert sachets.code == "A4422"
    assert sachets.usual_monthly_maximum is None
    assert sachets.over_maximum is None


def test_a_two_piece_extended_barrier_has_a_code_with_a_coupling() -> None:
    """A4385 is a solid barrier, to which no pouch couples. Which of the two codes holds goes by the
    size, which is not recorded."""
    (two,) = all_lines()["A4409 or A4410"]
    assert two.text == "Extended-wear barrier, flat"
    assert two.maximum is None
    assert "from memory, unverified" in (two.doubt or "")
    assert "A4385" not in all_lines()


@pytest.mark.parametrize("accessory", [Accessory.RING, Accessory.HALF_RING])
def test_the_billing_of_a_ring_is_called_doubtful(accessory: Accessory) -> None:
    ring = lines(accessories=frozenset({accessory}))[accessory.value]
    assert "ask the biller" in (ring.code_note or "")


def test_what_a_code_means_is_marked_by_whether_it_was_read() -> None:
    assert LINES["ring"].sources == ("lcd/meaning", "lcd/maxima")
    assert LINES["thickener"].sources == ("from_memory", "lcd/no_figure")
    assert LINES["night_bag"].sources == ("from_memory", "lcd/maxima")


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
    plan = recommend(well(accessories=frozenset({Accessory.BELT})))
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


def test_few_barriers_say_too_little_and_the_published_mean_is_used() -> None:
    """Richbourg 2008 (from memory): ileostomy 5.01 days."""
    assert lines(wear=worn(2.0, times=2))["barrier"].per_month == 6


# --- expected wear and its uncertainty --------------------------------------------------------
def logged(*days: float) -> Plan:
    return recommend(well(wear=tuple(WearEpisode(d, RemovalReason.PLANNED) for d in days)))


def wear_of(plan: Plan) -> ExpectedWear:
    assert plan.expected_wear is not None
    return plan.expected_wear


@pytest.mark.parametrize("days", [(3.0, 4.0, 5.0, 4.0), (2.0, 2.5, 3.0, 3.5, 4.0, 4.5)])
def test_the_interval_is_students(days: tuple[float, ...]) -> None:
    """Against SciPy's own interval, and the factor printed in every table (4 values: 3.182)."""
    wear = wear_of(logged(*days))
    low, high = stats.t.interval(
        0.95, len(days) - 1, loc=mean(days), scale=stdev(days) / math.sqrt(len(days))
    )
    assert wear.days == pytest.approx(mean(days))
    assert wear.low_days == pytest.approx(max(low, min(days)))
    assert wear.high_days == pytest.approx(min(high, max(days)))
    assert wear.barriers == len(days)
    assert float(stdtrit(3, 0.975)) == pytest.approx(3.182, abs=0.001)


def test_few_and_scattered_values_say_no_more_than_was_seen() -> None:
    wear = wear_of(logged(1.0, 4.0, 7.0))
    assert (wear.low_days, wear.high_days) == (1.0, 7.0)


def test_more_barriers_make_it_narrower() -> None:
    few, many = wear_of(logged(*(3.0, 4.0, 5.0) * 2)), wear_of(logged(*(3.0, 4.0, 5.0) * 8))
    assert few.low_days is not None
    assert many.low_days is not None
    assert few.low_days < many.low_days < few.days == many.days


@pytest.mark.parametrize("times", [0, 2])
def test_without_enough_barriers_the_published_mean_is_used_without_an_interval(times: int) -> None:
    wear = wear_of(recommend(well(wear=worn(2.0, times=times))))
    assert (wear.days, wear.low_days, wear.high_days, wear.barriers) == (5.01, None, None, 0)
    assert "richbourg2008/means" in wear.sources
    assert all(line.until_at_most is None for line in recommend(well()).quantities)


def test_a_limit_holds_the_interval_too() -> None:
    plan = recommend(leaking(wear=tuple(WearEpisode(d, RemovalReason.PLANNED) for d in (2, 4, 6))))
    wear = wear_of(plan)
    assert (wear.days, wear.low_days, wear.high_days) == (3.0, 2.0, 3.0)
    assert "limited to the 3 days" in wear.text


def test_how_many_at_most_follows_the_short_end() -> None:
    plan = logged(2.0, 4.0, 6.0)
    barrier = next(line for line in plan.quantities if line.supply_key == "barrier")
    days = plan.follow_up.in_days
    assert barrier.until_next_visit == math.ceil(days / 4.0) + 1
    assert barrier.until_at_most == math.ceil(days / 2.0) + 1


def test_pack_sizes_are_never_invented() -> None:
    lines = recommend(leaking(accessories=frozenset({Accessory.BELT}))).quantities
    notes = {line.supply_key: line.note or "" for line in lines}
    assert "not known here" in notes["barrier"]
    assert "Used as needed" in notes["powder"]
    assert notes["belt"] == ""
    assert not any(character.isdigit() for note in notes.values() for character in note)


#: US coverage rule L33828, usual maximum a month, copied by hand; None: no figure in that table.
CAPS = {
    "A4357": 2, "A4367": 1, "A4371": 10 / 6, "A4396": None, "A4404": 10, "A4409 or A4410": None,
    "A4405 or A4406": 4, "A4412": None, "A4414": 20, "A4416": 60, "A4417": 60, "A4419": 60,
    "A4422": None, "A4424": 20, "A4425": 20, "A4429": 20, "A4431": 20, "A4432": 20,
    "A4456": None, "A5056": 40, "A5057": 40, "A5120": 25,
}  # fmt: skip


def test_codes_and_caps_are_those_of_the_coverage_rule() -> None:
    seen: dict[str, float | None] = {}
    for _, _, plan in planned(1000):
        for line in plan.quantities:
            if line.code is not None:
                seen[line.code] = line.usual_monthly_maximum
    for line_ in LINES.values():
        if line_.code is not None:
            seen[line_.code] = line_.maximum
    assert {code: CAPS[code] for code in seen} == seen
