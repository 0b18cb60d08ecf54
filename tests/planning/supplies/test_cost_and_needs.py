"""What a choice costs, which needs it meets, and why another one lost."""

from __future__ import annotations

import pytest

from planning import History
from planning.inputs.findings import Firmness, Material, Person, Trial
from planning.needs import needs_of
from planning.results.plan import Need
from planning.supplies.admissible import barred
from planning.supplies.catalogue import CONVEX, SUPPLIES
from planning.supplies.options import Cost, lifting_barriers, meets, unpacked
from planning.supplies.search import Combination, meets_map, reachable, why_lost
from planning.supplies.worn import worn_now
from tests.benchmarks.choice import choice_of
from tests.planning.builders import leaking, situation, well

NEW = History()
ONE = Cost(1, 1, 1, 1)


def combination(met: int, cost: Cost = ONE, essential: int = 0) -> Combination:
    return Combination(("ring",), met, cost, essential, 0)


SEAL, CREASE = Need("seal_edge", "Seal the edge", ()), Need("fill_crease", "Fill the crease", ())


@pytest.mark.parametrize(
    ("other", "words"),
    [
        # Only what the best does not leave open too.
        (combination(0b00, essential=1), "It leaves open: fill the crease."),
        (combination(0b01, Cost(2, 1, 1, 1)), "It changes more at once (2 against 1)."),
        (combination(0b01, Cost(1, 3, 1, 1)), "It needs more items (3 against 1)."),
        (combination(0b01, Cost(1, 1, 2, 1)),
         "It asks more of hands, eyes or skin (2 against 1)."),
        (combination(0b01, Cost(1, 1, 1, 2)),
         "It is equal on every point and comes later in the table."),
    ],
)  # fmt: skip
def test_why_lost_names_the_first_point_behind(other: Combination, words: str) -> None:
    assert why_lost(combination(0b01), other, (CREASE, SEAL)) == words


def test_each_supply_is_said_to_meet_the_needs_it_was_made_for() -> None:
    met = meets_map(("ring", "paste", "belt"), (SEAL, CREASE), situation(well()))
    assert met == {"ring": (SEAL, CREASE), "paste": (CREASE,), "belt": ()}


@pytest.mark.parametrize(
    ("lift_mm", "enough"),
    [
        (2.9, {"shallow", "moderate", "deep"}),
        (3.1, {"moderate", "deep"}),
        (7.9, {"moderate", "deep"}),
        (8.0, {"deep"}),
        (20.0, {"deep"}),
    ],
)
def test_a_dome_lifts_up_to_the_depth_of_its_class(lift_mm: float, enough: set[str]) -> None:
    """McNichol 2021: shallow up to 3 mm, moderate below 8, deep from there."""
    need = Need("lift_rim", "Lift", (), amount=lift_mm, unit="mm")
    lifting = {key for key in CONVEX if meets(SUPPLIES[key], need, CONVEX)}
    assert {key.rpartition("_")[2] for key in lifting} == enough


@pytest.mark.parametrize(("day", "dome"), [(400, True), (20, False)])
def test_a_firm_or_belted_dome_is_no_need_where_no_dome_may_be_chosen(day: int, dome: bool) -> None:
    """In the first 30 days none is begun without a specialist's assessment."""
    now = situation(leaking(protrusion_mm=-6.0, firmness=Firmness.SOFT, days_since_surgery=day))
    needs = {need.key for need in needs_of(now)}
    left = {
        need.key
        for need in reachable(
            needs_of(now), lifting_barriers(now), barred(now, worn_now(now.facts))
        )
    }
    assert {"firm_dome", "hold_snug", "lift_rim"} <= needs
    assert needs - left == (set() if dome else {"firm_dome", "hold_snug"})


def test_a_combination_held_to_fewer_supplies_keeps_their_order() -> None:
    whole = Combination(("flat_flexible", "ring", "belt"), 0, Cost(0, 3, 0, 0), 0, 0)
    assert whole.of(frozenset({"belt", "ring", "flat_flexible"})) is whole
    assert whole.of(frozenset({"belt", "flat_flexible"})).keys == ("flat_flexible", "belt")


def test_a_barrier_that_helped_once_is_a_change_for_who_wears_another_now() -> None:
    helped = History(trials=(Trial(frozenset({"soft_convex_shallow", "ring"}), helped=True),))
    choice = choice_of(well(accessories=None), helped)
    changes = {o.keys: unpacked(o.cost).changes for group in choice.groups for o in group}
    assert changes[("soft_convex_shallow",)] == 1
    assert changes[("flat_flexible",)] == 0
    # Nothing lies where the ring would.
    assert changes[("ring",)] == 0
    assert changes[("strip",)] == 1


@pytest.mark.parametrize(("reacts", "alone"), [(set(), False), ({Material.PROTECTANT}, True)])
def test_powder_is_sealed_by_film_unless_film_may_not_be_used(
    reacts: set[Material], alone: bool
) -> None:
    person = Person(sensitivities=frozenset(reacts))
    offered = {o.keys for group in choice_of(leaking(person=person), NEW).groups for o in group}
    assert (("powder",) in offered) is alone
    assert (("powder", "protectant") in offered) is not alone
    assert (("protectant",) in offered) is not alone


def test_an_empty_place_costs_nothing_and_a_supply_one_item() -> None:
    costs = {o.keys: unpacked(o.cost) for g in choice_of(leaking(), NEW).groups for o in g}
    assert costs[()] == Cost(0, 0, 0, 0)
    assert costs[("ring",)].items == 1
    assert costs[("powder", "protectant")].items == 2
