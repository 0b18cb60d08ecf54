"""The choice is the best there is: against a plain brute force, and on histories of trials."""

from __future__ import annotations

from functools import reduce
from itertools import product
from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Ability,
    Accessory,
    Bulge,
    ConvexDepth,
    Crease,
    Degree,
    Findings,
    Firmness,
    Material,
    Person,
    PouchKind,
    Profile,
    SkinKind,
    StomaKind,
    Trial,
)
from planning.needs import ESSENTIAL, needs_of
from planning.results.plan import Change, Stage
from planning.supplies.admissible import barred
from planning.supplies.catalogue import CATALOGUE, CONVEX, SUPPLIES, Slot
from planning.supplies.hazards import HAZARDS
from planning.supplies.options import Cost, joined, lifting_barriers, options, undominated, unpacked
from planning.supplies.search import reachable, search, unmet_needs, why_lost
from planning.supplies.worn import worn_now
from tests.benchmarks.choice import choice_of
from tests.planning.builders import ALL, LOW, leaking, raw, seen, situation, well

HURT = {"bulges": (Bulge(ClockHours.of(3), 15.0, 60.0, True, False),)}

CASES: list[Findings] = [
    well(),
    leaking(),
    leaking(protrusion_mm=0.0),
    leaking(protrusion_mm=-6.0, firmness=Firmness.SOFT),
    leaking(**HURT),
    leaking(**HURT, person=Person(sensitivities=frozenset({Material.PASTE}))),
    leaking(creases=(Crease(LOW, 6.0),), accessories=frozenset({Accessory.PASTE})),
    leaking(kind=StomaKind.UROSTOMY, pouch=PouchKind.CLOSED),
    well(skin=(seen(SkinKind.SATELLITES, moist=True),)),
    well(skin=(seen(SkinKind.PRESSURE_MARK),), profile=Profile.CONVEX, flexibility=None),
]


@pytest.mark.parametrize("found", CASES)
def test_against_brute_force(found: Findings) -> None:
    """Every admissible combination that holds nothing idle, one by one, in the stated order."""
    now = situation(found)
    worn = worn_now(now.facts)
    not_allowed = barred(now, worn)
    needs = reachable(needs_of(now), lifting_barriers(now), not_allowed)
    groups = options(now, needs, worn, frozenset(not_allowed))
    # Keep the product small: drop only what meets no need and is not worn and is not "nothing".
    useful = [[o for o in g if o.met or not o.keys or set(o.keys) & worn.keys] or g for g in groups]
    useful = [g if len(g) < 40 else g[:40] for g in useful]

    def order(row: tuple[Any, ...]) -> tuple[int, int, Cost, tuple[str, ...]]:
        met = 0
        for option in row:
            met |= option.met
        unmet = [n.key for i, n in enumerate(needs) if not met >> i & 1]
        essential = sum(key in ESSENTIAL for key in unmet)
        cost = unpacked(sum(option.cost for option in row))
        keys = tuple(key for option in row for key in option.keys)
        return essential, len(unmet) - essential, cost, keys

    best = min(order(row) for row in product(*useful))
    found_best, _ = search(now, needs, worn, not_allowed, ESSENTIAL)
    assert (found_best.essential, found_best.other, found_best.cost) == best[:3]
    assert set(found_best.keys) == set(best[3])


@pytest.mark.parametrize("found", CASES)
def test_the_runner_up_is_the_next_best(found: Findings) -> None:
    """Every combination of options that earn their place, in order: the second is the runner-up."""
    choice = choice_of(found, History())
    ways = [reduce(joined, row) for row in product(*(undominated(g) for g in choice.groups))]
    in_order = sorted(
        ((choice.must & ~w.met).bit_count(), (choice.may & ~w.met).bit_count(), w.cost)
        for w in ways
    )
    _, other = search(choice.situation, choice.needs, choice.worn, choice.barred, ESSENTIAL)
    if other is None:
        assert len(in_order) == 1
    else:
        assert (other.essential, other.other, other.cost.packed()) == in_order[1]


def test_costs_pack_and_add() -> None:
    one, two = Cost(3, 9, 40, 200), Cost(1, 2, 5, 30)
    assert unpacked(one.packed() + two.packed()) == Cost(4, 11, 45, 230)
    assert Cost(1, 0, 0, 0).packed() > Cost(0, 17, 200, 700).packed()


@pytest.mark.parametrize("found", CASES)
def test_the_runner_up_says_why_it_lost(found: Findings) -> None:
    plan = recommend(found)
    if plan.runner_up is not None:
        assert plan.runner_up.supplies != plan.supplies
        assert plan.runner_up.lost_because.endswith(".")


def test_why_lost_names_the_need_left_open() -> None:
    now = situation(leaking(protrusion_mm=0.0))
    worn = worn_now(now.facts)
    needs = needs_of(now)
    best, other = search(now, needs, worn, barred(now, worn), ESSENTIAL)
    assert other is not None
    assert set(unmet_needs(best, needs)) <= set(unmet_needs(other, needs))
    assert "leaves open" in why_lost(best, other, needs)


def test_the_table_names_only_known_hazards_and_one_key_each() -> None:
    keys = [supply.key for supply in CATALOGUE]
    assert len(keys) == len(set(keys))
    assert {h for s in CATALOGUE for h in s.hazards} == set(HAZARDS)
    assert {s.slot for s in CATALOGUE} == set(Slot)


def test_every_flat_flexible_barrier_is_free_of_hazards() -> None:
    assert SUPPLIES["flat_flexible"].hazards == ()


# --- history of trials ----------------------------------------------------------------------
FLUSH = leaking(protrusion_mm=0.0)


def after(*trials: Trial, **other: Any) -> tuple[str, ...]:
    return recommend(FLUSH, History(trials=trials, **other)).supplies


def failed(*keys: str) -> Trial:
    return Trial(frozenset(keys), helped=False)


def test_first_the_least_depth_that_lifts() -> None:
    assert "soft_convex_shallow" in after()


SOFT = {"profile": Profile.CONVEX, "compressibility": Degree.MORE, "flexibility": None}
FIRM = {"profile": Profile.CONVEX, "compressibility": Degree.LESS, "flexibility": None}
RING = frozenset({Accessory.RING})


@pytest.mark.parametrize(
    ("worn", "step"),
    [
        (SOFT | {"convex_depth": ConvexDepth.SHALLOW}, {"soft_convex_moderate"}),
        (SOFT | {"convex_depth": ConvexDepth.MODERATE}, {"soft_convex_moderate", "ring"}),
        (SOFT | {"convex_depth": ConvexDepth.MODERATE, "accessories": RING},
         {"firm_convex_moderate", "ring"}),
        (FIRM | {"convex_depth": ConvexDepth.MODERATE, "accessories": RING},
         {"firm_convex_moderate", "ring", "belt"}),
        (FIRM | {"convex_depth": ConvexDepth.MODERATE,
                 "accessories": RING | {Accessory.BELT}}, {"firm_convex_deep", "ring", "belt"}),
    ],
)  # fmt: skip
def test_what_leaks_steps_up_one_step(worn: dict[str, Any], step: set[str]) -> None:
    """Common practice: soft, shallow to moderate, a ring with it, firmer or deeper, then a belt."""
    plan = recommend(leaking(protrusion_mm=0.0, **worn))
    barriers = {key for key in plan.supplies if "convex" in key} | {"ring", "belt"}
    assert set(plan.supplies) & barriers == step
    changed = {r.key for r in plan.recommendations if r.stage is Stage.TODAY}
    assert len(changed) == 1


def test_when_every_depth_failed_the_surgeon_is_asked() -> None:
    worn = FIRM | {"convex_depth": ConvexDepth.DEEP, "accessories": RING | {Accessory.BELT}}
    plan = recommend(leaking(protrusion_mm=0.0, **worn))
    refer = next(r for r in plan.recommendations if r.key == "step_surgeon")
    assert "surgeon" in refer.text
    assert not [r for r in plan.recommendations if r.stage is Stage.TODAY]


def test_what_helped_since_cancels_an_older_failure() -> None:
    worked = Trial(frozenset({"soft_convex_shallow"}), helped=True)
    assert "soft_convex_shallow" in after(failed("soft_convex_shallow"), worked)


def test_what_hurt_is_never_offered_again() -> None:
    hurt = Trial(
        frozenset({"soft_convex_shallow"}), hurt=frozenset({"soft_convex_shallow", "ring"})
    )
    assert not {"soft_convex_shallow", "ring"} & set(after(hurt))


@pytest.mark.parametrize(
    ("hurt", "left"),
    [
        ("soft_convex_shallow", set()),
        ("firm_convex_shallow", {"soft_convex_shallow"}),
        ("soft_convex_moderate", {"soft_convex_shallow"}),
        (
            "firm_convex_moderate",
            {"soft_convex_shallow", "soft_convex_moderate", "firm_convex_shallow"},
        ),
        ("flat_firm", set()),
    ],
)
def test_what_injured_steps_down(hurt: str, left: set[str]) -> None:
    """Flatter or softer, and in neither point more; a flexible flat barrier always remains."""
    history = History(trials=(Trial(frozenset({hurt}), hurt=frozenset({hurt})),))
    now = situation(FLUSH, history)
    not_allowed = barred(now, worn_now(now.facts))
    assert CONVEX - set(not_allowed) == left
    assert "flat_flexible" not in not_allowed
    chosen = set(recommend(FLUSH, history).supplies)
    assert chosen & (left or {"flat_flexible"})


def test_a_flat_flexible_barrier_that_hurt_bars_no_other() -> None:
    hurt = Trial(frozenset({"flat_flexible"}), hurt=frozenset({"flat_flexible"}))
    assert "soft_convex_shallow" in after(hurt)
    now = situation(FLUSH, History(trials=(hurt,)))
    # Something must hold the pouch.
    assert "flat_flexible" not in barred(now, worn_now(now.facts))


def test_what_sensitised_is_never_offered() -> None:
    person = Person(sensitivities=frozenset({Material.RING, Material.PROTECTANT}))
    plan = recommend(leaking(protrusion_mm=0.0, person=person))
    assert not {"ring", "protectant"} & set(plan.supplies)
    assert "powder" in plan.supplies


def test_a_flat_barrier_with_ring_that_leaked_calls_for_convexity() -> None:
    """Rolstad 2006: a leak despite right size and technique: assess for convexity."""
    plan = recommend(leaking(), History(trials=(failed("flat_flexible", "ring"),)))
    assert "soft_convex_shallow" in plan.supplies


def test_pressure_injury_steps_down_to_flat() -> None:
    plan = recommend(
        well(
            skin=(seen(SkinKind.PRESSURE_MARK),),
            profile=Profile.CONVEX,
            convex_depth_mm=5.0,
            flexibility=None,
            protrusion_mm=2.0,
            leak=LOW,
            accessories=frozenset({Accessory.BELT}),
        )
    )
    assert "flat_flexible" in plan.supplies
    changes = {r.key: r.change for r in plan.recommendations}
    assert changes["flat_flexible"] is Change.CHANGE
    assert changes["belt"] is Change.STOP


# --- the person's hands and materials ---------------------------------------------------------
def test_weak_hands_get_a_ready_cut_opening_where_one_fits() -> None:
    hands = Person(sensitivities=frozenset(), dexterity=Ability.LIMITED)
    stable = History(previous=(well(days_since_surgery=380),))
    burnt = (seen(SkinKind.ERYTHEMA),)
    assert "pre_cut" in recommend(well(person=hands, leak=LOW, skin=burnt), stable).supplies
    plan = recommend(leaking(person=hands))
    assert "pre_cut" not in plan.supplies
    assert "cut_ahead" in {r.key for r in plan.recommendations}


@pytest.mark.parametrize(
    ("changes", "days_before"),
    [
        ({"days_since_surgery": 50}, 20),
        ({"width_mm": 24.0}, 20),
        ({}, 13),
        ({"length_mm": 42.0}, 20),
    ],
)
def test_no_ready_cut_opening(changes: dict[str, Any], days_before: int) -> None:
    """Not before 8 weeks, not oval, not unless stable for 14 days, not between two sizes."""
    hands = Person(sensitivities=frozenset(), dexterity=Ability.LIMITED)
    found = leaking(person=hands, **changes)
    days = (found.stoma.days_since_surgery or 0) - days_before
    history = History(previous=(well(**(changes | {"days_since_surgery": days})),))
    assert "pre_cut" not in recommend(found, history).supplies


def test_paste_goes_for_who_reacts_to_paste() -> None:
    person = Person(sensitivities=frozenset({Material.PASTE}))
    plan = recommend(leaking(**HURT, person=person, accessories=frozenset({Accessory.PASTE})))
    assert "paste" not in plan.supplies
    assert {r.key: r.stage for r in plan.recommendations}["paste"] is Stage.CORRECT_NOW


def test_antifungal_only_with_satellites_and_a_prescriber() -> None:
    spots = well(skin=(seen(SkinKind.SATELLITES, moist=True),))
    agreed = History(prescriber_agreed_antifungal=True)
    assert "antifungal_powder" in recommend(spots, agreed).supplies
    alone = recommend(spots)
    assert "antifungal_powder" not in alone.supplies
    assert "open_treat_yeast" in {r.key for r in alone.recommendations}
    assert "antifungal_powder" not in recommend(leaking(), agreed).supplies


def test_powder_alone_where_protectant_is_the_culprit() -> None:
    reaction = raw(ALL, outer_mm=40.0, product_outline=True)
    plan = recommend(well(skin=(reaction,), accessories=frozenset({Accessory.PROTECTANT})))
    assert "powder" in plan.supplies
    assert "protectant" not in plan.supplies
    assert {r.key: r.change for r in plan.recommendations}["protectant"] is Change.STOP


def test_what_worked_counts_as_no_change() -> None:
    """A ring that helped last time goes before a strip: starting it again changes nothing."""
    ridge = {"creases": (Crease(LOW, 4.0),), "leak": LOW, "accessories": None}
    fresh = recommend(well(**ridge))
    assert "strip" in fresh.supplies or "ring" in fresh.supplies
    for key in ("ring", "strip"):
        helped = History(trials=(Trial(frozenset({"flat_flexible", key}), helped=True),))
        assert key in recommend(well(**ridge), helped).supplies
