"""Beside a fistula and on irradiated skin nothing presses: neither kept nor new, and no word of the
plan says otherwise."""

from __future__ import annotations

from typing import Any

import pytest

from planning import Plan, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Accessory,
    Bulge,
    Condition,
    Degree,
    Firmness,
    Person,
    Profile,
    SkinFinding,
    SkinKind,
)
from planning.results.plan import Change
from planning.supplies.catalogue import PRESSES
from tests.planning.builders import LOW, raw, seen, well

RAYS = Person(sensitivities=frozenset(), has=frozenset({Condition.RADIOTHERAPY_ABDOMEN}))
#: Findings that call for a firm dome and a belt.
LOW_STOMA: dict[str, Any] = {"protrusion_mm": -6.0, "firmness": Firmness.SOFT, "leak": LOW}
WORN: dict[str, Any] = {
    "profile": Profile.CONVEX,
    "flexibility": None,
    "compressibility": Degree.LESS,
    "convex_depth_mm": 5.0,
    "accessories": frozenset({Accessory.BELT}),
}


def pit(start: float | None, *hours: int) -> SkinFinding:
    end = None if start is None else start + 5.0
    return seen(SkinKind.FISTULA, ClockHours.of(*hours), inner_mm=start, outer_mm=end)


HARMED: dict[str, dict[str, Any]] = {
    "fistula inside": {"skin": (pit(14.0, 7),)},
    "fistula, distance not recorded": {"skin": (pit(None, 12),)},
    "fistula within 10 mm of the barrier": {"skin": (pit(45.0, 12),)},
    "irradiated, raw": {"person": RAYS, "skin": (raw(),)},
    "irradiated, dry erosion": {"person": RAYS, "skin": (raw(moist=False),)},
    "irradiated, macerated": {"person": RAYS, "skin": (seen(SkinKind.MACERATION),)},
    "irradiated, skin not recorded": {"person": RAYS, "skin": None},
    "irradiated, sound, leaking": {"person": RAYS, "skin": ()},
}


def changes(plan: Plan) -> dict[str, Change]:
    return {r.key: r.change for r in plan.recommendations}


@pytest.mark.parametrize("harm", HARMED)
@pytest.mark.parametrize("worn", [{}, WORN], ids=["new", "worn"])
def test_nothing_that_presses_is_in_the_plan(harm: str, worn: dict[str, Any]) -> None:
    assert PRESSES & set(recommend(well(**LOW_STOMA, **worn)).supplies)
    plan = recommend(well(**(LOW_STOMA | worn | HARMED[harm])))
    assert not PRESSES & set(plan.supplies)


@pytest.mark.parametrize("harm", HARMED)
def test_what_is_worn_is_taken_off_and_the_plan_says_why(harm: str) -> None:
    plan = recommend(well(**(LOW_STOMA | WORN | HARMED[harm])))
    assert changes(plan)["belt"] is Change.STOP
    assert changes(plan)["flat_flexible"] is Change.CHANGE
    word = "fistula" if "fistula" in harm else "radiotherapy"
    for key in ("belt", "flat_flexible"):
        item = next(r for r in plan.recommendations if r.key == key)
        assert any(word in reason.text for reason in item.because), key


def test_a_fistula_far_outside_leaves_the_barrier_and_the_belt_alone() -> None:
    """46 mm from a stoma of 30 mm is more than 10 mm beyond a usual barrier."""
    plan = recommend(well(**LOW_STOMA, **WORN, skin=(pit(46.0, 12),)))
    assert any("_convex_" in key for key in plan.supplies)
    assert "belt" in plan.supplies


def test_a_fistula_far_outside_at_the_belts_line_takes_the_belt_alone() -> None:
    plan = recommend(well(**LOW_STOMA, **WORN, skin=(pit(46.0, 3),)))
    assert any("_convex_" in key for key in plan.supplies)
    assert changes(plan)["belt"] is Change.STOP


def test_what_works_on_sound_irradiated_skin_is_left_alone() -> None:
    """Radiotherapy years ago and a system that holds: nothing is taken off, nothing begun."""
    plan = recommend(well(**WORN, person=RAYS))
    assert plan.leave_alone
    assert "belt" in plan.supplies


def test_a_flat_barrier_that_may_be_firm_is_kept_only_where_it_is_not() -> None:
    plan = recommend(well(flexibility=None, skin=(pit(14.0, 7),)))
    kept = next(r for r in plan.recommendations if r.key == "flat_flexible")
    assert "Do not keep a firm one." in (kept.caution or "")
    assert "fistula" in (kept.caution or "")


@pytest.mark.parametrize("harm", HARMED)
def test_no_word_of_the_plan_offers_what_presses(harm: str) -> None:
    bulge: dict[str, Any] = {"bulges": (Bulge(ClockHours.of(9), 15.0, 60.0, True, False),)}
    plan = recommend(well(**(LOW_STOMA | WORN | bulge | HARMED[harm])))
    said = " ".join(
        f"{r.text} {r.patient_text or ''}".lower()
        for r in plan.recommendations
        if r.change is not Change.STOP and not r.key.startswith("refer_")
    )
    assert "belt" not in said
    assert "garment" not in said
    for flag in plan.red_flags:
        if flag.key in ("fistula", "radiation"):
            assert "No convexity, belt" in flag.do


def test_no_earlier_change_is_asked_of_irradiated_skin() -> None:
    plan = recommend(well(**LOW_STOMA, person=RAYS, skin=(raw(),)))
    lift = next(r for r in plan.recommendations if r.key == "open_lift_rim")
    assert "change earlier" not in lift.text


@pytest.mark.parametrize("start", [0.0, 14.0, 45.0, None])
def test_nothing_is_cut_for_the_stoma_alone_beside_a_fistula(start: float | None) -> None:
    """It would be sealed under the barrier: no size, no template, no step that cuts."""
    plan = recommend(well(skin=(pit(start, 7),), opening_length_mm=60.0, opening_width_mm=60.0))
    assert plan.dimensions.opening_length_mm is None
    assert plan.dimensions.opening_outline == ()
    assert "opening" not in changes(plan)
    assert not [s.key for s in plan.steps if "cut" in s.key]
    assert changes(plan)["cut_for_both"] is Change.CHANGE


def test_far_from_the_barrier_the_opening_is_the_stomas_own() -> None:
    plan = recommend(well(skin=(pit(46.0, 7),)))
    assert plan.dimensions.opening_length_mm == 34.0
    assert "cut_for_both" not in changes(plan)
