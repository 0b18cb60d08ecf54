"""What would have to be different."""

from __future__ import annotations

import pytest

from planning import History, recommend
from planning.counterfactual import counterfactuals
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Bulge, Crease, Profile
from planning.results.plan import Plan
from tests.planning.builders import LOW, leaking, well


@pytest.mark.parametrize("start", [0.0, 2.0, 6.0])
def test_upwards_nothing_smaller_would_do(start: float) -> None:
    found = leaking(protrusion_mm=start)
    plan = recommend(found)
    key = next(k for k in plan.supplies if "convex" in k)
    up = [c for c in counterfactuals(found, History(), key) if "or more" in c.text]
    height = next(c for c in up if c.path == "measurement.protrusion_mm")
    limit = float(height.value.split()[0])
    for step in range(int(limit - start)):
        assert key in _plan(start + step).supplies
    assert key not in _plan(limit).supplies
    assert height.text == f"With a stoma height of {limit:g} mm or more {_rest(height.text)}"
    assert "flat, flexible barrier" in height.text


def _plan(height: float) -> Plan:
    return recommend(leaking(protrusion_mm=height))


def _rest(text: str) -> str:
    return text.split("or more ")[1]


def test_words_are_tried_too() -> None:
    found = leaking(creases=(Crease(LOW, 5.0),))
    texts = [c.text for c in counterfactuals(found, History(), "strip")]
    assert "Without creases this would not be recommended." in texts


def test_a_half_ring_goes_with_its_bulge() -> None:
    bulge = Bulge(ClockHours.of(12), 15.0, 60.0, True, False)
    found = leaking(bulges=(bulge,), profile=Profile.CONCAVE)
    paths = {c.path for c in counterfactuals(found, History(), "half_ring")}
    assert "abdomen.bulges" in paths


def test_what_is_not_recommended_has_none() -> None:
    assert counterfactuals(well(), History(), "paste") == ()
