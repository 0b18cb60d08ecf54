"""Needs that exclude one another: one is given up, by a stated order, and the plan says so."""

from __future__ import annotations

from typing import Any

import pytest

from planning import Plan, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Bulge, Condition, Contour, Crease, Firmness, Person, Prolapse
from tests.planning.builders import LOW, leaking

BULGE = {"bulges": (Bulge(ClockHours.of(3), 15.0, 60.0, True, False),)}
DEEP = (Crease(LOW, 12.0),)


def keys(plan: Plan) -> set[str]:
    return {need.key for need in plan.needs}


def because(plan: Plan, key: str) -> str:
    return " ".join(r.text for need in plan.needs if need.key == key for r in need.because)


def test_a_soft_abdomen_that_curves_outwards_gets_the_firm_dome() -> None:
    plan = recommend(leaking(protrusion_mm=0.0, contour=Contour.ROUNDED, firmness=Firmness.SOFT))
    assert "firm_dome" in keys(plan)
    assert "flexible_surface" not in keys(plan)
    assert "comes before bending along" in because(plan, "firm_dome")
    assert any(key.startswith("firm_convex") for key in plan.supplies)


IRRADIATED = Person(sensitivities=frozenset(), has=frozenset({Condition.RADIOTHERAPY_ABDOMEN}))


def test_irradiated_skin_bends_before_a_firm_dome() -> None:
    plan = recommend(leaking(protrusion_mm=-6.0, person=IRRADIATED))
    assert "flexible_surface" in keys(plan)
    assert "firm_dome" not in keys(plan)
    assert not any("_convex_" in key for key in plan.supplies)


@pytest.mark.parametrize(
    ("harm", "bends"),
    [
        ({"contour": Contour.ROUNDED}, False),
        (BULGE, True),
        ({"prolapse": (Prolapse(30.0, True, False),), "widest_mm": 40.0}, True),
        ({"person": IRRADIATED}, True),
    ],
)
def test_a_deep_fold_is_held_open_only_where_that_harms_nothing(
    harm: dict[str, Any], bends: bool
) -> None:
    plan = recommend(leaking(creases=DEEP, **harm))
    assert ("flexible_surface" in keys(plan)) is bends
    assert ("hold_fold" in keys(plan)) is not bends


def test_without_a_conflict_both_stay_as_before() -> None:
    assert "flexible_surface" in keys(recommend(leaking(contour=Contour.ROUNDED)))
    assert "firm_dome" in keys(recommend(leaking(protrusion_mm=-6.0)))
