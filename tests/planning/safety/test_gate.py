"""The last gate takes out what breaks a rule, whatever the search chose."""

from __future__ import annotations

from typing import Any

import pytest

from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Accessory,
    Bulge,
    Condition,
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
