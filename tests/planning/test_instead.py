"""What is offered instead: over the sweep, each one a sound plan that changes only what it says."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from planning import Alternative, Findings, Fixed, FixedKind, History, Plan, alternatives, recommend
from planning.consistency import faults
from planning.evidence.thresholds import GAP_MOST
from planning.fixed_choice import key_made
from planning.inputs.findings import Colour, Material, Oedema, Person
from planning.pipeline import ranked_facts_of
from planning.results.plan import Change, ItemKind, Stage
from planning.safety.gate import broken_rules
from planning.supplies.catalogue import CONVEX, SUPPLIES, Slot
from planning.supplies.hazards import Stay, in_force
from planning.supplies.worn import worn_now
from tests.planning.builders import GROWN, LOW, leaking, well
from tests.planning.sweep import planned

#: States tried; each has nine alternatives on average.
TRIED = 250
_OPENINGS = frozenset({"cut_to_fit", "pre_cut", "mouldable"})
#: Advice that follows from what is worn, and comes or goes with it.
_FOLLOWS = frozenset(
    {"wear_interval", "wear_as_now", "wear_longer", "change_sooner", "garment_later",
     "stoma_shrank", "thin_skin", "ballooning", "ballooning_closed", "next_step_down",
     "film_not_on_thick"}
)  # fmt: skip

Offered = tuple[Findings, History, Plan, Alternative, Plan]


@pytest.fixture(scope="module")
def offered() -> list[Offered]:
    return list(_offered())


def _offered() -> Iterator[Offered]:
    for found, history, plan in planned(TRIED):
        for several in alternatives(found, history).values():
            for one in several:
                yield found, history, plan, one, recommend(found, history, (one.fixed,))


def test_every_alternative_passes_the_gate(offered: list[Offered]) -> None:
    assert len(offered) > 5 * TRIED
    for found, history, _, one, made in offered:
        now = ranked_facts_of(found, history)
        supplies = frozenset(made.supplies)
        worn = worn_now(now.facts).keys
        assert broken_rules(now, supplies) == {}, one
        assert faults(made, now) == (), one
        if one.fixed.supply:
            materials = SUPPLIES[one.fixed.supply].materials
            assert not materials & (found.person.sensitivities or frozenset()), one
            active = in_force(now)
            for hazard in SUPPLIES[one.fixed.supply].hazards:
                stays = one.fixed.supply in worn and hazard in active
                assert hazard not in active or (stays and active[hazard].stay is not Stay.NEVER)


def test_every_alternative_changes_only_what_it_says(offered: list[Offered]) -> None:
    for _, _, plan, one, made in offered:
        before, after = set(plan.supplies), set(made.supplies)
        if one.fixed.kind in (FixedKind.DAY, FixedKind.GAP):
            assert after == before, one
        else:
            gone = before & (_OPENINGS if one.fixed.key == "opening" else {one.fixed.key})
            assert after == (before - gone) | ({one.fixed.supply} - {""}), one
        assert made.red_flags == plan.red_flags
        assert made.urgency is plan.urgency
        assert made.causes == plan.causes
        assert made.well == plan.well
        if plan.leave_alone or made.leave_alone:
            continue
        assert made.needs == plan.needs
        mine = {one.fixed.key, key_made(one.fixed)} | _FOLLOWS
        assert _others(made, mine) == _others(plan, mine), one


def _others(plan: Plan, mine: set[str]) -> dict[str, Change]:
    return {
        item.key: item.change
        for item in plan.recommendations
        if item.key not in mine and not item.key.startswith("open_")
    }


def test_a_day_leaves_sizes_and_steps_alone(offered: list[Offered]) -> None:
    days = [one for one in offered if one[3].fixed.kind is FixedKind.DAY]
    assert days
    for _, _, plan, one, made in days:
        assert made.dimensions == plan.dimensions
        assert made.steps == plan.steps
        assert made.expected_wear is not None
        assert made.expected_wear.days == one.fixed.amount
        for line in made.quantities:
            if line.supply_key == "barrier" and "closed" not in made.supplies:
                assert line.per_month == -(-30 // int(one.fixed.amount or 1))


def test_a_gap_is_the_gap_of_the_template(offered: list[Offered]) -> None:
    gaps = [one for one in offered if one[3].fixed.kind is FixedKind.GAP]
    assert gaps
    for _, _, plan, one, made in gaps:
        assert made.dimensions.gap_mm == one.fixed.amount
        assert made.dimensions.opening_outline != plan.dimensions.opening_outline
        assert made.dimensions.stoma_outline == plan.dimensions.stoma_outline
        assert f"{one.fixed.amount:.1f} mm free on every side" in one.text


def test_what_is_corrected_stays_corrected(offered: list[Offered]) -> None:
    """No choice puts back what does harm, or calls a correction a step of today."""
    for _, _, plan, one, made in offered:
        corrected = {r.key for r in plan.recommendations if r.stage is Stage.CORRECT_NOW}
        kept = {
            r.key: r.stage
            for r in made.recommendations
            if r.key in corrected and r.change is not Change.STOP
        }
        mine = {one.fixed.key, key_made(one.fixed)}
        assert all(stage is Stage.CORRECT_NOW for key, stage in kept.items() if key not in mine)


def test_each_alternative_has_its_own_words(offered: list[Offered]) -> None:
    by_item: dict[tuple[int, str], list[str]] = {}
    for _, _, plan, one, _ in offered:
        by_item.setdefault((id(plan), one.fixed.key), []).append(one.text)
    assert all(all(texts) and len(texts) == len(set(texts)) for texts in by_item.values())


def test_a_leak_offers_a_profile_a_size_a_day_and_none() -> None:
    found = alternatives(leaking(protrusion_mm=2.0), History())
    kinds = {one.fixed.kind for several in found.values() for one in several}
    assert kinds == set(FixedKind)
    days = [one.text for one in found["wear_interval"]]
    assert days == ["Change every day", "Change on day 2 at the latest"]


def test_everything_offered_for_one_leak() -> None:
    """The gap of 2 mm and the cut opening are the plan's own; powder may go, its film may not."""
    found = alternatives(leaking(protrusion_mm=2.0), History())
    offered = {key: [one.fixed.code for one in several] for key, several in found.items()}
    barriers = offered.pop("soft_convex_shallow")
    assert offered == {
        "two_piece": ["supply:one_piece"],
        "opening": ["gap:1.5875", "gap:2.5", "gap:3.175", "supply:mouldable"],
        "powder": ["none"],
        "drainable": ["supply:drainable_large", "supply:high_output"],
        "wear_interval": ["day:1", "day:2"],
    }
    profiles = {key for key, one in SUPPLIES.items() if one.slot is Slot.BARRIER}
    assert {f"supply:{key}" for key in profiles - {"soft_convex_shallow"}} == set(barriers)
    assert [one.text for one in found["opening"]] == [
        "33 mm, 1.6 mm free on every side",
        "35 mm, 2.5 mm free on every side",
        "36 mm, 3.2 mm free on every side",
        "Mouldable opening, 34 mm",
    ]


def test_what_was_chosen_is_offered_beside_what_it_took_the_place_of() -> None:
    """Of the thing itself all is offered again; of the others, what goes with it."""
    chosen = Fixed("wear_interval", FixedKind.DAY, amount=2.0)
    before = alternatives(leaking(protrusion_mm=2.0), History())
    after = alternatives(leaking(protrusion_mm=2.0), History(), (chosen,))
    assert after == before


def test_a_filler_may_be_another_made_for_the_same_need() -> None:
    for found, history, plan in planned(600):
        rings = [r for r in plan.recommendations if r.key == "strip" and r.change is Change.START]
        if not rings or "fill_crease" not in rings[0].need_keys:
            continue
        for one in alternatives(found, history).get("strip", ()):
            if one.fixed.supply:
                provides = SUPPLIES[one.fixed.supply].provides
                assert set(rings[0].need_keys) <= set(provides)


def test_what_is_worn_and_to_be_left_off_may_be_kept_where_nothing_forbids_it() -> None:
    for found, history, plan in planned(TRIED):
        stops = {r.key for r in plan.recommendations if r.change is Change.STOP}
        for key, several in alternatives(found, history).items():
            if key in stops:
                assert [one.fixed.supply for one in several] == [key]
                assert several[0].text.startswith("Keep it")


def test_nothing_is_offered_in_an_emergency_or_under_16() -> None:
    assert alternatives(well(colour=Colour.BLACK_BROWN_GREY), History()) == {}
    assert alternatives(leaking(age_years=9), History()) == {}


def test_no_dome_where_one_may_not_be_worn() -> None:
    found = alternatives(leaking(days_since_surgery=5), History())
    codes = {one.fixed.supply for several in found.values() for one in several}
    assert not codes & CONVEX


def test_nothing_that_the_person_reacts_to() -> None:
    person = Person(sensitivities=frozenset({Material.RING, Material.PASTE}), age_years=GROWN)
    found = alternatives(well(leak=LOW, protrusion_mm=2.0, person=person), History())
    codes = {one.fixed.supply for several in found.values() for one in several}
    assert not codes & {"ring", "half_ring", "strip", "paste"}


def test_a_swollen_stoma_is_offered_no_closer_hole() -> None:
    found = alternatives(leaking(oedema=Oedema.MARKED), History())
    gaps = [one for one in found.get("opening", ()) if one.fixed.kind is FixedKind.GAP]
    assert [one.fixed.amount for one in gaps] == [GAP_MOST.value]


def test_what_is_offered_goes_with_what_is_chosen_already() -> None:
    findings = leaking(protrusion_mm=2.0)
    first = next(
        one
        for one in alternatives(findings, History())["opening"]
        if one.fixed.kind is FixedKind.GAP
    )
    after = alternatives(findings, History(), (first.fixed,))
    barrier = next(r.key for r in recommend(findings).recommendations if r.kind is ItemKind.BARRIER)
    for one in after[barrier]:
        both = recommend(findings, History(), (first.fixed, one.fixed))
        assert both.dimensions.gap_mm == first.fixed.amount
