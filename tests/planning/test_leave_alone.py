"""A good fit: nothing is changed, nothing new is proposed."""

from __future__ import annotations

from typing import Any

import pytest

from planning import Plan, recommend
from planning.findings import Accessory, Degree, OpeningKind, Profile
from planning.plan import Change
from tests.planning.builders import well


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


def test_a_flush_stoma_without_a_system_yet_gets_a_dome() -> None:
    plan = recommend(well(protrusion_mm=0.0, system=None, skin=None))
    assert "soft_convex_shallow" in plan.supplies
