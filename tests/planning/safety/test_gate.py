"""The last gate takes out what breaks a rule, whatever the search chose."""

from __future__ import annotations

from typing import Any

import pytest

from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Accessory,
    Bulge,
    Condition,
    History,
    Material,
    Person,
    Profile,
    Prolapse,
    SkinKind,
    StomaKind,
)
from planning.safety.gate import RULES, broken_rules, passed
from tests.planning.builders import LOW, leaking, raw, seen, situation, well

LIVER = Person(has=frozenset({Condition.LIVER_DISEASE}))
RAYS = Person(has=frozenset({Condition.RADIOTHERAPY_ABDOMEN}))
FILM = Person(sensitivities=frozenset({Material.PROTECTANT}))


@pytest.mark.parametrize(
    ("rule", "changes", "supply"),
    [
        ("varices", {"person": LIVER}, "soft_convex_shallow"),
        ("varices", {"skin": (seen(SkinKind.DILATED_VEINS),)}, "belt"),
        ("pyoderma", {"skin": (seen(SkinKind.UNDERMINED_ULCER),)}, "belt"),
        ("early_convexity", {"days_since_surgery": 30}, "soft_convex_shallow"),
        ("pressure_injury", {"skin": (seen(SkinKind.PRESSURE_MARK),)}, "soft_convex_shallow"),
        ("growth_infection_rod", {"skin": (seen(SkinKind.ABSCESS),)}, "soft_convex_shallow"),
        ("growth_infection_rod", {"rod_in_place": True}, "soft_convex_shallow"),
        ("prolapse_and_hernia", {"prolapse": (Prolapse(),), "leak": LOW}, "soft_convex_shallow"),
        (
            "prolapse_and_hernia",
            {"bulges": (Bulge(ClockHours.of(3)),), "leak": LOW},
            "firm_convex_shallow",
        ),
        ("fistula", {"skin": (seen(SkinKind.FISTULA),)}, "soft_convex_shallow"),
        ("fistula", {"skin": (seen(SkinKind.FISTULA, inner_mm=None),)}, "flat_firm"),
        ("fistula", {"skin": (seen(SkinKind.FISTULA, inner_mm=None),)}, "belt"),
        ("irradiated", {"person": RAYS, "skin": (raw(),)}, "soft_convex_shallow"),
        ("irradiated", {"person": RAYS, "skin": None}, "belt"),
        ("irradiated", {"person": RAYS}, "flat_firm"),
        ("antifungal", {}, "antifungal_powder"),
        ("sensitivities", {"person": FILM}, "protectant"),
        ("closed_on_urostomy", {"kind": StomaKind.UROSTOMY}, "closed"),
    ],
)
def test_each_rule(rule: str, changes: dict[str, Any], supply: str) -> None:
    now = situation(well(**changes))
    assert supply in broken_rules(now, frozenset({supply, "flat_flexible"}))[rule]
    assert supply not in passed(now, frozenset({supply, "flat_flexible"}))


@pytest.mark.parametrize(
    ("start", "hours", "supply", "kept"),
    [
        (45.0, ClockHours.of(12), "soft_convex_shallow", False),
        (46.0, ClockHours.of(12), "soft_convex_shallow", True),
        (46.0, ClockHours.of(12), "belt", True),
        (46.0, ClockHours.of(10), "belt", False),
        # A belt presses the whole barrier down on it.
        (45.0, ClockHours.of(12), "belt", False),
    ],
)
def test_a_fistula_is_near_up_to_10_mm_from_the_barrier_and_under_the_belt_along_its_line(
    start: float, hours: ClockHours, supply: str, kept: bool
) -> None:
    """A usual barrier ends 35.8 mm from a stoma of 30 mm."""
    pit = seen(SkinKind.FISTULA, hours, inner_mm=start, outer_mm=start + 5)
    assert (supply in passed(situation(well(skin=(pit,))), frozenset({supply}))) is kept


def test_what_works_on_sound_irradiated_skin_may_stay_and_nothing_new_may_press() -> None:
    worn = {"profile": Profile.CONVEX, "accessories": frozenset({Accessory.BELT})}
    supplies = frozenset({"soft_convex_shallow", "belt"})
    assert passed(situation(well(person=RAYS, **worn)), supplies) == supplies
    assert not supplies & passed(situation(well(person=RAYS)), supplies)


def test_a_barrier_taken_out_gives_way_to_the_flat_flexible() -> None:
    now = situation(well(person=LIVER))
    assert passed(now, frozenset({"firm_convex_deep", "ring"})) == {"flat_flexible", "ring"}


def test_a_sound_choice_passes_unchanged() -> None:
    supplies = frozenset({"firm_convex_shallow", "belt", "ring"})
    assert passed(situation(leaking(protrusion_mm=0.0)), supplies) == supplies


def test_day_thirty_one_is_past_the_early_period() -> None:
    now = situation(well(days_since_surgery=31))
    assert broken_rules(now, frozenset({"soft_convex_shallow"})) == {}


def test_rules_are_numbered_once() -> None:
    keys = [rule.key for rule in RULES]
    assert len(keys) == len(set(keys))


# --- each word of a rule by itself --------------------------------------------------------------
@pytest.mark.parametrize(
    ("material", "supply"),
    [
        (Material.PROTECTANT, "protectant"),
        (Material.PASTE, "paste"),
        (Material.POWDER, "powder"),
        (Material.POWDER, "antifungal_powder"),
        (Material.RING, "ring"),
        (Material.RING, "half_ring"),
        (Material.RING, "strip"),
        (Material.ADHESIVE_REMOVER, "adhesive_remover"),
        (Material.LATEX, "belt"),
        (Material.LATEX, "support_garment"),
    ],
)
def test_every_supply_of_a_material_goes_for_who_reacts_to_it(
    material: Material, supply: str
) -> None:
    person = Person(sensitivities=frozenset({material}))
    assert (
        supply in broken_rules(situation(well(person=person)), frozenset({supply}))["sensitivities"]
    )


@pytest.mark.parametrize("hour", range(1, 13))
def test_a_belt_runs_over_2_to_4_and_8_to_10(hour: int) -> None:
    """A fistula far beyond the barrier: only where the belt lies does the belt go."""
    pit = seen(SkinKind.FISTULA, ClockHours.of(hour), inner_mm=60.0, outer_mm=65.0)
    kept = "belt" in passed(situation(well(skin=(pit,))), frozenset({"belt"}))
    assert kept is (hour in (11, 12, 1, 5, 6, 7))


@pytest.mark.parametrize("kind", [SkinKind.HARD_LUMP, SkinKind.SPREADING_WARMTH, SkinKind.ABSCESS])
def test_no_dome_over_growth_or_infection_of_any_kind(kind: SkinKind) -> None:
    broken = broken_rules(situation(well(skin=(seen(kind),))), frozenset({"firm_convex_deep"}))
    assert "growth_infection_rod" in broken


@pytest.mark.parametrize(
    ("skin", "agreed", "worn", "kept"),
    [
        (True, True, False, True),
        (True, False, False, False),
        (False, True, False, False),
        (False, False, True, True),
    ],
)
def test_an_antifungal_needs_spots_and_a_prescriber_or_is_already_in_use(
    skin: bool, agreed: bool, worn: bool, kept: bool
) -> None:
    found = well(
        skin=(seen(SkinKind.SATELLITES),) if skin else (),
        accessories=frozenset({Accessory.ANTIFUNGAL_POWDER}) if worn else frozenset(),
    )
    now = situation(found, History(prescriber_agreed_antifungal=agreed))
    assert ("antifungal_powder" in passed(now, frozenset({"antifungal_powder"}))) is kept


@pytest.mark.parametrize("barrier", ["soft_convex_shallow", "firm_convex_deep", "flat_firm"])
def test_a_barrier_that_breaks_no_rule_stays_when_something_else_goes(barrier: str) -> None:
    """Two barriers would be no plan."""
    assert passed(situation(well(person=FILM)), frozenset({barrier, "protectant"})) == {barrier}
