"""The ladders, the first step not yet tried, and where a person enters."""

from __future__ import annotations

from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Ability,
    Accessory,
    Bulge,
    Condition,
    ConvexDepth,
    Crease,
    Degree,
    LeakCount,
    LumenPosition,
    Person,
    Profile,
    Prolapse,
    Separation,
    StomaKind,
    Symptom,
    Trial,
)
from planning.restraint.ladders import LADDER_NEEDS, LADDERS
from planning.restraint.which_ladder import ladder_for
from planning.results.plan import Stage
from planning.supplies.catalogue import SUPPLIES
from tests.planning.builders import INTACT, LOW, leaking, situation, well

BULGE = {"bulges": (Bulge(ClockHours.of(3), 15.0, 60.0, True, False),)}
RING = frozenset({Accessory.RING})
NONE = History()
THICK = {"kind": StomaKind.COLOSTOMY, "present": frozenset({Symptom.THICK_STICKING_STOOL})}
BLIND = {"person": Person(sensitivities=frozenset(), eyesight=Ability.NONE)}

#: Every step by ladder and place, set down a second time from the facts.
IN_ORDER = {
    "low_stoma": ["ring", "soft_shallow", "soft_moderate", "convex_and_ring", "firmer_or_deeper",
                  "belt", "firm_deep", "surgeon"],
    "edge": ["ring", "soft_shallow", "soft_moderate", "convex_and_ring", "firmer_or_deeper", "belt",
             "surgeon"],
    "crease": ["fill", "fill_with_paste", "soft_on_crease", "narrow", "firm_on_crease",
               "belly_support", "surgeon"],
    "bulge": ["flexible", "concave", "edge_strips", "garment", "surgeon"],
    "pours_low": ["low_side", "soft_shallow", "soft_moderate", "extended", "surgeon"],
    "loose_output": ["ring", "extended", "surgeon"],
    "prolapse": ["one_soft_piece", "cover", "flap", "surgeon"],
    "separation": ["flexible", "ring_as_it_fills", "soft_assessed"],
    "thick_stool": ["one_pouch_measure", "softer_stool"],
    "placing": ["pre_cut", "one_piece", "helper"],
}  # fmt: skip


def test_the_steps_are_in_the_order_of_the_facts() -> None:
    assert {ladder.key: [rung.key for rung in ladder.rungs] for ladder in LADDERS} == IN_ORDER


def test_every_need_of_a_step_can_be_met() -> None:
    offered = {key for supply in SUPPLIES.values() for key in supply.provides}
    assert {need.key for need in LADDER_NEEDS} == {"follow_bulge", "loosen_stool", "dome_as_tried"}
    assert {need.key for need in LADDER_NEEDS} <= offered


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"leak": INTACT}, None),
        ({"protrusion_mm": 0.0, "leak": LOW}, "low_stoma"),
        ({"leak": LOW, "volume_ml_24h": None}, "edge"),
        ({"leak": LOW, "creases": (Crease(LOW, 6.0),)}, "crease"),
        ({"leak": LOW, **BULGE}, "bulge"),
        ({"leak": LOW, "lumen": LumenPosition.OFF_CENTRE, "lumen_hour": 6}, "pours_low"),
        ({"leak": LOW, "volume_ml_24h": 1400.0}, "loose_output"),
        ({"leak": LOW, "prolapse": (Prolapse(30.0, True, False),), "widest_mm": 45.0}, "prolapse"),
        ({"leak": LOW, "junction": (Separation(LOW, 3.0, True, False),)}, "separation"),
        ({"leak": LOW, **THICK}, "thick_stool"),
        ({"leak": LOW, **BLIND}, "placing"),
        # Melted, and nothing got under: changed sooner, not for another.
        ({"erosion": LOW}, None),
        # Counted, not seen.
        ({"leak_count": LeakCount(3, 10), "protrusion_mm": 0.0}, "low_stoma"),
        ({"leak_count": LeakCount(0, 10), "protrusion_mm": 0.0}, None),
    ],
)
def test_which_ladder(changes: dict[str, Any], key: str | None) -> None:
    ladder = ladder_for(situation(well(**changes)))
    assert (None if ladder is None else ladder.key) == key


def step(**changes: Any) -> set[str]:
    plan = recommend(leaking(**changes))
    return {r.key for r in plan.recommendations if r.stage is Stage.TODAY}


COUNT = {"leak_count": LeakCount(5, 10)}


@pytest.mark.parametrize(
    ("changes", "taken"),
    [
        # A spout high enough starts with a ring, a low one with the least dome.
        ({"protrusion_mm": 15.0}, {"ring"}),
        ({"protrusion_mm": 2.0}, {"soft_convex_shallow"}),
        # Liquid, raw skin and three leaks a week or more: a moderate dome.
        ({"protrusion_mm": 2.0, "volume_ml_24h": 1100.0, "usual_wear_days": 1.1, **COUNT},
         {"soft_convex_moderate"}),
        ({"protrusion_mm": 2.0, "volume_ml_24h": 1100.0, "usual_wear_days": 1.2, **COUNT},
         {"soft_convex_shallow"}),
        # 5 mm or more below the skin, and raw.
        ({"protrusion_mm": -5.0}, {"soft_convex_moderate"}),
        ({"protrusion_mm": -4.9}, {"soft_convex_shallow"}),
    ],
)  # fmt: skip
def test_where_a_person_enters(changes: dict[str, Any], taken: set[str]) -> None:
    assert step(**changes) == taken


def test_a_crease_deeper_than_strips_is_filled_in_layers_and_never_left() -> None:
    plan = recommend(leaking(creases=(Crease(LOW, 12.0),)))
    assert "strip" in plan.supplies
    need = next(need for need in plan.needs if need.key == "fill_crease")
    assert "as far as they reach" in need.text


def test_a_step_that_may_not_be_worn_is_passed_over() -> None:
    early = recommend(leaking(protrusion_mm=2.0, days_since_surgery=20))
    assert not any("convex" in key for key in early.supplies)
    assert not any("convex" in later.key for later in early.next_steps)


FAR = {"protrusion_mm": 2.0, "leak": LOW}
DOME = {"profile": Profile.CONVEX, "convex_depth": ConvexDepth.SHALLOW, "flexibility": None,
        "compressibility": Degree.MORE}  # fmt: skip


def today(changes: dict[str, Any], history: History = NONE) -> set[str]:
    plan = recommend(well(**changes), history)
    return {r.key for r in plan.recommendations if r.stage is Stage.TODAY}


def test_where_no_dome_may_be_worn_the_ladder_begins_with_the_ring() -> None:
    liver = Person(
        sensitivities=frozenset(), has=frozenset({Condition.LIVER_DISEASE}), age_years=50
    )
    assert today(FAR) == {"soft_convex_shallow"}
    assert today({**FAR, "person": liver}) == {"ring"}
    assert today({**FAR, "days_since_surgery": 20}) == {"ring"}


def test_a_dome_that_had_to_go_stands_for_no_step() -> None:
    """What hurt is undone; the ring before it was never tried."""
    soft = frozenset({"soft_convex_shallow"})
    hurt = History(trials=(Trial(soft, helped=False, hurt=soft),))
    plan = recommend(well(**FAR, **DOME), hurt)
    assert {"flat_flexible", "ring"} <= set(plan.supplies)
    assert "step_surgeon" not in {r.key for r in plan.recommendations}
    assert "ring" not in today({**FAR, **DOME})


def test_in_the_last_weeks_the_gentlest_step_is_first_and_no_operation_is_held_out() -> None:
    dying = Person(
        sensitivities=frozenset(), has=frozenset({Condition.LAST_WEEKS_OF_LIFE}), age_years=80
    )
    assert today({**FAR, "person": dying}) == {"ring"}
    steps = recommend(well(**FAR, person=dying)).next_steps
    assert steps
    assert not [step for step in steps if "surgeon" in step.text]
    assert [step for step in recommend(well(**FAR)).next_steps if "surgeon" in step.text]


@pytest.mark.parametrize(
    ("leak", "ladder"),
    [(ClockHours.of(9), "crease"), (ClockHours.of(6, 9), "low_stoma"), (LOW, "low_stoma")],
)
def test_a_leak_at_the_crease_alone_is_the_creases(leak: ClockHours, ladder: str) -> None:
    found = well(protrusion_mm=4.0, leak=leak, creases=(Crease(ClockHours.of(9), 4.0),))
    chosen = ladder_for(situation(found))
    assert chosen is not None
    assert chosen.key == ladder


def test_when_no_step_is_left_the_surgeon_is_asked_and_what_is_worn_is_kept() -> None:
    worn = {"profile": Profile.CONVEX, "convex_depth": ConvexDepth.DEEP,
            "compressibility": Degree.LESS, "flexibility": None,
            "accessories": RING | {Accessory.BELT}}  # fmt: skip
    plan = recommend(well(protrusion_mm=2.0, leak=LOW, **worn))
    assert "step_surgeon" in {r.key for r in plan.recommendations}
    assert plan.fit is not None
    assert plan.fit.changes == 0
