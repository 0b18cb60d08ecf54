"""What must hold for every set of findings, over generated findings and a sweep."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import TypeVar

import pytest
from hypothesis import HealthCheck, given, settings

from planning import Findings, History, recommend
from planning.findings import Bulge, Crease, Separation, SkinFinding
from planning.snapshot import plan_to_dict
from tests.planning.invariants import INVARIANTS, make
from tests.planning.strategies import findings, plain_histories
from tests.planning.sweep import states

many = settings(
    max_examples=250, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)

#: States of the discretised space tried in the suite; the benchmark tries a million.
IN_THE_SUITE = 10_000


@many
@given(findings, plain_histories)
def test_generated_findings(found: Findings, history: History) -> None:
    made = make(found, history)
    for holds in INVARIANTS:
        holds(made)
    again = recommend(found, history)
    assert json.dumps(plan_to_dict(again)) == json.dumps(plan_to_dict(made.plan))


def test_sweep_over_the_discretised_space() -> None:
    for found, history in states(IN_THE_SUITE):
        made = make(found, history)
        for holds in INVARIANTS:
            holds(made)


@many
@given(findings)
def test_mirrored_findings_give_a_mirrored_plan(found: Findings) -> None:
    plan, other = recommend(found), recommend(mirrored(found))
    assert plan.supplies == other.supplies
    assert plan.urgency is other.urgency
    assert [f.key for f in plan.red_flags] == [f.key for f in other.red_flags]
    assert [s.key for s in plan.steps] == [s.key for s in other.steps]
    assert [n.hours.mirrored() for n in plan.needs] == [n.hours for n in other.needs]
    assert [c.hours.mirrored() for c in plan.causes.causes] == [
        c.hours for c in other.causes.causes
    ]
    for name in ("opening_length_mm", "stoma_area_mm2", "skin_burden_mm2", "convex_depth_mm"):
        mine, its = getattr(plan.dimensions, name), getattr(other.dimensions, name)
        assert mine == its or mine == pytest.approx(its, rel=1e-6)


def mirrored(found: Findings) -> Findings:
    """Left and right exchanged everywhere."""
    m, system = found.measurement, found.system
    hour = None if m.lumen_hour is None else 12 - m.lumen_hour or 12
    axis = None if m.axis_hour is None else 6 - m.axis_hour or 6
    radii = None if m.radii_mm is None else (*reversed(m.radii_mm[:11]), m.radii_mm[11])
    junction = None if m.junction is None else tuple(map(_mirrored, m.junction))
    abdomen = found.abdomen
    return replace(
        found,
        measurement=replace(m, lumen_hour=hour, axis_hour=axis, radii_mm=radii, junction=junction),
        skin=None if found.skin is None else tuple(map(_mirrored, found.skin)),
        abdomen=replace(
            abdomen,
            creases=None if abdomen.creases is None else tuple(map(_mirrored, abdomen.creases)),
            bulges=None if abdomen.bulges is None else tuple(map(_mirrored, abdomen.bulges)),
        ),
        system=None
        if system is None
        else replace(
            system,
            erosion=None if system.erosion is None else system.erosion.mirrored(),
            leak=None if system.leak is None else system.leak.mirrored(),
        ),
    )


T = TypeVar("T", Separation, SkinFinding, Crease, Bulge)


def _mirrored(part: T) -> T:
    return replace(part, hours=part.hours.mirrored())
