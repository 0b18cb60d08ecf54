"""Corrections first, then one step; never more than two changes in all."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given

from planning import Findings, History, Plan, recommend
from planning.inputs.age import AgeGroup
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Ability,
    Accessory,
    Bulge,
    Circumstance,
    ConvexDepth,
    Crease,
    Degree,
    Material,
    Person,
    PouchKind,
    Profile,
    RemovalReason,
    SkinFinding,
    SkinKind,
    Trial,
    WearEpisode,
)
from planning.results.plan import Change, FitAnswer, Stage
from tests.planning.builders import ALL, LOW, leaking, raw, seen, well
from tests.planning.strategies import findings, plain_histories
from tests.planning.sweep import planned

CONVEX = {"profile": Profile.CONVEX, "convex_depth": ConvexDepth.DEEP, "flexibility": None,
          "compressibility": Degree.LESS}  # fmt: skip
BELT = frozenset({Accessory.BELT})


def staged(plan: Plan, stage: Stage) -> set[str]:
    return {r.key for r in plan.recommendations if r.stage is stage}


def holds_back(plan: Plan) -> bool:
    """Two changes at most, unless corrections alone are more; then nothing is changed besides."""
    if plan.made_for is not AgeGroup.ADULT or plan.fit is None:
        return True
    return plan.fit.changes <= 2 or not staged(plan, Stage.TODAY)


def test_no_plan_changes_more_than_two_things_but_corrections() -> None:
    for _, _, plan in planned(1500):
        assert holds_back(plan)


@given(findings, plain_histories)
def test_no_generated_plan_does_either(found: Findings, history: History) -> None:
    assert holds_back(recommend(found, history))


def test_harm_is_corrected_first_and_uses_up_the_limit() -> None:
    """An opening that rubs and a first cover of weeping skin: the step waits."""
    plan = recommend(leaking(protrusion_mm=2.0, opening_length_mm=29.0, opening_width_mm=29.0))
    assert staged(plan, Stage.CORRECT_NOW) == {"opening", "powder", "protectant"}
    assert staged(plan, Stage.TODAY) == set()
    assert plan.next_steps[0].key == "soft_shallow"
    assert "5 barriers or 14 days" in plan.next_steps[0].trigger


def test_three_corrections_are_all_done() -> None:
    worn = {"accessories": BELT | {Accessory.PASTE}, **CONVEX}
    person = Person(sensitivities=frozenset({Material.PASTE}))
    plan = recommend(well(skin=(seen(SkinKind.BRUISE),), person=person, **worn))
    assert {"belt", "paste", "flat_flexible"} <= staged(plan, Stage.CORRECT_NOW)
    assert plan.fit is not None
    assert plan.fit.changes == 3
    assert not staged(plan, Stage.TODAY)


def test_a_closed_pouch_with_liquid_output_is_corrected() -> None:
    plan = recommend(leaking(pouch=PouchKind.CLOSED))
    assert "drainable" in staged(plan, Stage.CORRECT_NOW)


def log(*reasons: RemovalReason, **last: Any) -> tuple[WearEpisode, ...]:
    return tuple(WearEpisode(4.0, reason) for reason in reasons)


PLANNED, LEAKED = RemovalReason.PLANNED, RemovalReason.LEAK


@pytest.mark.parametrize(
    ("wear", "answer"),
    [
        (log(*[PLANNED] * 7, LEAKED), FitAnswer.WATCH),
        (log(*[PLANNED] * 6, LEAKED), FitAnswer.CHANGE),
        (log(*[PLANNED] * 7, LEAKED, LEAKED), FitAnswer.CHANGE),
        ((*log(*[PLANNED] * 3), WearEpisode(4.0, LEAKED, Circumstance.PASSING_ILLNESS)),
         FitAnswer.FITS),
    ],
)  # fmt: skip
def test_one_leak_among_many_changes_nothing(
    wear: tuple[WearEpisode, ...], answer: FitAnswer
) -> None:
    plan = recommend(well(wear=wear))
    assert plan.fit is not None
    assert plan.fit.answer is answer
    assert bool(staged(plan, Stage.TODAY)) is (answer is FitAnswer.CHANGE)


@pytest.mark.parametrize(
    ("trial", "waits"),
    [
        ({"barriers": 2, "days": 20.0}, True),
        ({"barriers": 3, "days": 13.0}, True),
        ({"barriers": 3, "days": 14.0}, False),
        ({"barriers": 4, "days": 10.0}, True),
        ({"barriers": 5, "days": 10.0}, False),
        ({}, False),
        ({"barriers": 2, "days": 4.0, "helped": False}, True),
        ({"barriers": 3, "days": 4.0, "helped": False}, False),
        ({"days": 4.0, "helped": False}, False),
        ({"barriers": 2, "days": 4.0, "partly": True}, False),
        ({"barriers": 2, "days": 4.0, "hurt": frozenset({"ring"})}, False),
    ],
)
def test_a_change_on_trial_is_waited_for(trial: dict[str, Any], waits: bool) -> None:
    history = History(trials=(Trial(frozenset({"flat_flexible"}), **trial),))
    plan = recommend(well(leak=LOW), history)
    assert ("on_trial" in {r.key for r in plan.recommendations}) is waits
    assert bool(staged(plan, Stage.TODAY)) is not waits


@pytest.mark.parametrize(
    ("changes", "waits"),
    [
        ({"accessories": frozenset({Accessory.POWDER})}, True),
        ({"accessories": frozenset({Accessory.POWDER}), "skin": None}, False),
        ({"accessories": frozenset({Accessory.POWDER}), "skin": (raw(),)}, False),
        ({}, False),
    ],
)
def test_powder_left_on_whole_skin_goes_before_any_product(
    changes: dict[str, Any], waits: bool
) -> None:
    plan = recommend(well(leak=LOW, **changes))
    assert (not staged(plan, Stage.TODAY)) is waits
    assert plan.next_steps


OUTWORN = (*log(*[PLANNED] * 4), *[WearEpisode(6.0, PLANNED)] * 6)


@pytest.mark.parametrize(
    ("late", "skin", "waits"),
    [
        ((7.0, 7.0, 7.0), (), True),
        ((7.0, 7.0, 3.0), (), False),
        ((7.0, 7.0, 4.5), (), False),
        ((7.0, 7.0, 7.0), (seen(SkinKind.ERYTHEMA),), False),
    ],
)
def test_leaks_after_the_day_of_change_ask_for_no_product(
    late: tuple[float, ...], skin: tuple[Any, ...], waits: bool
) -> None:
    wear = (*OUTWORN, *(WearEpisode(days, LEAKED) for days in late))
    plan = recommend(well(wear=wear, skin=skin))
    assert "wear_interval" in {r.key for r in plan.recommendations}
    assert (not staged(plan, Stage.TODAY)) is waits


@pytest.mark.parametrize(
    ("mark", "taken"),
    [
        ({"stays_min": 45.0}, {"belt"}),
        ({"fades_min": 31.0}, {"belt"}),
        ({"fades_min": 30.0}, set()),
        ({}, {"belt", "flat_flexible"}),
    ],
)
def test_a_mark_that_stays_takes_one_step_off(mark: dict[str, float], taken: set[str]) -> None:
    """Timed: one step, the belt first. Untimed: an injury, and everything that presses goes."""
    ring = seen(SkinKind.PRESSURE_MARK, ALL, **mark)
    plan = recommend(well(skin=(ring,), accessories=BELT, **CONVEX))
    assert staged(plan, Stage.CORRECT_NOW) == taken


def test_without_a_belt_the_dome_is_one_step_less() -> None:
    ring = seen(SkinKind.PRESSURE_MARK, ALL, stays_min=45.0)
    plan = recommend(well(skin=(ring,), **CONVEX))
    assert staged(plan, Stage.CORRECT_NOW) == {"firm_convex_moderate"}


def test_a_sore_far_out_is_the_belt_s_alone() -> None:
    sore = raw(LOW.of(3, 9), inner_mm=50.0, outer_mm=65.0)
    plan = recommend(well(skin=(sore,), accessories=BELT, **CONVEX))
    assert staged(plan, Stage.CORRECT_NOW) == {"belt"}
    assert {r.key: r.change for r in plan.recommendations}["belt"] is Change.STOP


def test_a_need_without_a_fault_is_no_product() -> None:
    plan = recommend(well(protrusion_mm=0.0))
    assert plan.leave_alone
    assert not staged(plan, Stage.TODAY) | staged(plan, Stage.CORRECT_NOW)


def test_a_step_that_a_correction_takes_does_not_wait() -> None:
    """A new bulge under a firm dome: flat and flexible is the correction and the first step."""
    bulge = Bulge(ClockHours.of(9), 35.0, 90.0, True, False)
    plan = recommend(well(bulges=(bulge,), leak=LOW, skin=(seen(SkinKind.BRUISE),), **CONVEX))
    assert "flat_flexible" in staged(plan, Stage.CORRECT_NOW)
    assert plan.next_steps[0].key == "concave"


def test_two_answers_are_told_apart() -> None:
    plan = recommend(well(pain_0_10=8))
    assert plan.well is not None
    assert plan.fit is not None
    assert plan.well.urgency is plan.urgency
    assert plan.fit.answer is FitAnswer.FITS
    assert not plan.leave_alone


@pytest.mark.parametrize(
    ("skin", "today"), [((), {"ring"}), ((seen(SkinKind.ERYTHEMA),), {"ring", "opening"})]
)
def test_one_change_where_no_cause_is_known(skin: tuple[SkinFinding, ...], today: set[str]) -> None:
    """A ready-cut opening would be the second one."""
    person = Person(sensitivities=frozenset(), dexterity=Ability.LIMITED)
    stable = History(previous=(well(days_since_surgery=380),))
    plan = recommend(well(person=person, leak=LOW, skin=skin), stable)
    assert staged(plan, Stage.TODAY) == today


def test_where_no_dome_may_be_worn_the_ring_is_the_first_step() -> None:
    plan = recommend(leaking(protrusion_mm=0.0, days_since_surgery=20))
    assert "ring" in staged(plan, Stage.TODAY)


def test_a_firm_dome_barred_leaves_the_deeper_one() -> None:
    """In the first month soft ones alone, once assessed."""
    worn = {"profile": Profile.CONVEX, "convex_depth": ConvexDepth.MODERATE, "flexibility": None,
            "compressibility": Degree.MORE, "accessories": frozenset({Accessory.RING})}  # fmt: skip
    assessed = History(specialist_convexity_assessment=True)
    plan = recommend(leaking(protrusion_mm=4.0, days_since_surgery=20, **worn), assessed)
    assert staged(plan, Stage.TODAY) == {"soft_convex_deep"}


def test_paste_in_place_of_strips_is_its_own_step() -> None:
    """A strip or ring is not named to somebody who reacts to their material."""
    crease = {"creases": (Crease(LOW, 2.0),), "leak": LOW, "pouch": PouchKind.CLOSED}
    person = Person(sensitivities=frozenset({Material.RING}))
    paste = recommend(well(person=person, skin=(raw(),), **crease))
    assert next(step.key for step in paste.next_steps) == "fill_with_paste"
    strip = recommend(well(skin=(raw(),), **crease))
    assert next(step.key for step in strip.next_steps) == "fill"
