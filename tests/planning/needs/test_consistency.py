"""Needs that exclude one another: one is given up, by a stated order, and the plan says so."""

from __future__ import annotations

from typing import Any

import pytest

from planning.inputs.clock import ClockHours
from planning.inputs.findings import Bulge, Condition, Contour, Crease, Firmness, Person, Prolapse
from planning.needs import agreed, needs_of
from planning.supplies.admissible import barred
from planning.supplies.options import lifting_barriers
from planning.supplies.search import reachable
from planning.supplies.worn import worn_now
from tests.planning.builders import LOW, leaking, situation

BULGE = {"bulges": (Bulge(ClockHours.of(3), 15.0, 60.0, True, False),)}
DEEP = (Crease(LOW, 12.0),)


def needs(**changes: Any) -> dict[str, str]:
    """Every need that was found and does not exclude another, with its reasons."""
    now = situation(leaking(**changes))
    found = reachable(needs_of(now), lifting_barriers(now), barred(now, worn_now(now.facts)))
    return {n.key: " ".join(r.text for r in n.because) for n in agreed(found, now)}


def test_a_soft_abdomen_that_curves_outwards_gets_the_firm_dome() -> None:
    found = needs(protrusion_mm=0.0, contour=Contour.ROUNDED, firmness=Firmness.SOFT)
    assert "flexible_surface" not in found
    assert "comes before bending along" in found["firm_dome"]


IRRADIATED = Person(sensitivities=frozenset(), has=frozenset({Condition.RADIOTHERAPY_ABDOMEN}))


def test_irradiated_skin_bends_before_a_firm_dome() -> None:
    found = needs(protrusion_mm=-6.0, person=IRRADIATED)
    assert "flexible_surface" in found
    assert "firm_dome" not in found


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
    found = needs(creases=DEEP, **harm)
    assert ("flexible_surface" in found) is bends
    assert ("hold_fold" in found) is not bends


def test_without_a_conflict_both_stay_as_before() -> None:
    assert "flexible_surface" in needs(contour=Contour.ROUNDED)
    assert "firm_dome" in needs(protrusion_mm=-6.0)
