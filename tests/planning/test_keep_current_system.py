"""A good fit: nothing is changed, nothing new is proposed."""

from __future__ import annotations

from typing import Any

import pytest

from planning import Plan, recommend
from planning.inputs.findings import Accessory, Degree, OpeningKind, PouchKind, Profile, StomaKind
from planning.results.plan import Change, FitAnswer
from tests.planning.builders import LOW, well


def kept(**changes: Any) -> Plan:
    plan = recommend(well(**changes))
    assert plan.leave_alone
    return plan


def test_everything_worn_is_kept_and_nothing_else() -> None:
    plan = kept(accessories=frozenset({Accessory.RING, Accessory.BELT}))
    assert {"ring", "belt"} <= set(plan.supplies)
    assert {r.change for r in plan.recommendations} == {Change.KEEP}


def test_the_opening_in_use_stays_the_opening() -> None:
    plan = kept(opening_length_mm=36.0, opening_width_mm=36.0)
    assert plan.dimensions.opening_length_mm == 36.0
    assert plan.dimensions.gap_mm == 3.0


@pytest.mark.parametrize("size", [None, 33.0, 40.0])
def test_no_other_opening_is_proposed(size: float | None) -> None:
    plan = kept(opening_length_mm=size, opening_width_mm=size)
    assert plan.dimensions.opening_length_mm is None
    assert plan.dimensions.opening_outline == ()
    assert plan.dimensions.stoma_length_mm == 30.0


@pytest.mark.parametrize("kind", [None, *OpeningKind])
def test_the_opening_is_named_once_whatever_its_kind(kind: OpeningKind | None) -> None:
    keys = [r.key for r in kept(opening_kind=kind).recommendations]
    assert keys.count("opening") == 1


def test_a_flush_stoma_that_seals_is_left_alone() -> None:
    assert "flat_flexible" in kept(protrusion_mm=0.0).supplies


def test_convexity_that_works_is_kept() -> None:
    dome = {
        "profile": Profile.CONVEX,
        "convex_depth_mm": 5.0,
        "compressibility": Degree.LESS,
        "flexibility": None,
    }
    plan = kept(protrusion_mm=2.0, **dome)
    assert "firm_convex_moderate" in plan.supplies
    assert plan.dimensions.convex_depth_class == "moderate"


def test_convexity_of_unknown_depth_that_works_is_kept() -> None:
    plan = kept(protrusion_mm=2.0, profile=Profile.CONVEX, flexibility=None)
    assert any("convex" in key for key in plan.supplies)


def test_a_flush_stoma_with_sound_skin_and_an_unread_barrier_is_not_changed() -> None:
    """Least change: without any sign of trouble no dome is started."""
    plan = recommend(well(protrusion_mm=0.0, leak=None))
    assert not plan.leave_alone
    assert "flat_flexible" in plan.supplies


def test_a_flush_stoma_without_a_fault_gets_no_product() -> None:
    """A need without a fault is a note: nothing is known to leak, and nothing is started."""
    plan = recommend(well(protrusion_mm=0.0, system=None, skin=None))
    assert plan.supplies == ()
    assert plan.fit is not None
    assert plan.fit.answer is FitAnswer.CANNOT_TELL


def notes(plan: Plan) -> str:
    return " ".join(notice.text for notice in plan.notices)


def test_a_wide_opening_over_skin_known_to_be_sound_stays_and_the_plan_says_so() -> None:
    plan = kept(opening_length_mm=39.0, opening_width_mm=39.0)
    assert "4.5 mm bare" in notes(plan)
    assert "the skin there is sound, so it may stay" in notes(plan)
    changed = recommend(well(opening_length_mm=39.0, opening_width_mm=39.0, leak=LOW))
    assert "4.5 mm bare" in notes(changed)
    assert "may stay" not in notes(changed)


@pytest.mark.parametrize(("size", "said"), [(31.0, True), (32.0, False), (34.0, False)])
def test_a_plain_edge_nearer_than_one_millimetre_is_said(size: float, said: bool) -> None:
    """Design value on the published gap: warn under 1 mm, unless mouldable."""
    assert ("may rub" in notes(recommend(well(opening_length_mm=size)))) is said
    rolled = well(opening_length_mm=size, opening_kind=OpeningKind.MOULDABLE)
    assert "may rub" not in notes(recommend(rolled))


def test_the_steps_and_amounts_of_a_good_fit_are_those_of_what_is_worn() -> None:
    plan = kept(opening_length_mm=39.0, opening_width_mm=39.0)
    cut = next(step for step in plan.steps if step.key == "cut_opening")
    assert cut.text == "Cut the opening to the size in use"
    uro = kept(kind=StomaKind.UROSTOMY, pouch=PouchKind.TAP, accessories=None)
    assert "night_bag" not in {step.key for step in uro.steps}
    assert "night_bag" not in {line.supply_key for line in uro.quantities}


def test_a_urostomy_recorded_without_a_night_bag_gets_one_and_nothing_else() -> None:
    plan = recommend(well(kind=StomaKind.UROSTOMY, pouch=PouchKind.TAP))
    assert not plan.leave_alone
    assert "night_bag" in plan.supplies
    new = {r.key for r in plan.recommendations if r.change is not Change.KEEP}
    assert new == {"night_bag"}
    assert plan.headline.startswith("A good fit")
    worn = frozenset({Accessory.NIGHT_BAG})
    assert (
        "night_bag" in kept(kind=StomaKind.UROSTOMY, pouch=PouchKind.TAP, accessories=worn).supplies
    )
