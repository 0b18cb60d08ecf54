"""What must hold for every set of findings, over generated findings and a sweep."""

from __future__ import annotations

import json
import subprocess
import sys
from dataclasses import replace
from itertools import product
from pathlib import Path
from typing import Any, TypeVar

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planning import Findings, History, recommend
from planning.inputs.findings import (
    Bulge,
    ColourPart,
    Consistency,
    Crease,
    OtherStoma,
    Output,
    Separation,
    SkinFinding,
    StomaKind,
    Wound,
)
from planning.results.plan import Change
from planning.results.snapshot import plan_to_dict
from tests.planning.builders import situation, well
from tests.planning.invariants import INVARIANTS, make
from tests.planning.safety.test_red_flags import WORSE, worsened
from tests.planning.strategies import findings, plain_histories
from tests.planning.sweep import states

many = settings(max_examples=40)

#: States of the discretised space tried in the suite; the benchmark tries a million.
IN_THE_SUITE = 600


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


@many
@given(findings, st.sampled_from(WORSE))
def test_more_severe_findings_never_lower_the_urgency(
    found: Findings, worse: dict[str, Any]
) -> None:
    """Whatever was found, one danger more leaves the plan at least as urgent."""
    before, after = situation(found), situation(worsened(found, worse))
    assert after.urgency.rank <= before.urgency.rank


UNCOMPLICATED = list(
    product(
        (StomaKind.ILEOSTOMY, StomaKind.JEJUNOSTOMY, StomaKind.COLOSTOMY),
        (25.0, 12.0, 4.0, 0.0, -6.0),
        (3, 20, 55, 400, 9000),
        (Output(), Output(volume_ml_24h=700.0), Output(consistency=Consistency.SOFT)),
    )
)


def test_every_uncomplicated_stoma_is_left_alone() -> None:
    """Sound skin, an intact barrier and a fitting opening: whatever the height and the day, but
    for a stoma that sinks soon after surgery."""
    for kind, height, days, output in UNCOMPLICATED:
        if height < 0 and days <= 30:
            continue
        made = make(
            well(kind=kind, protrusion_mm=height, days_since_surgery=days, output=output),
            History(),
        )
        assert made.plan.leave_alone
        assert {item.change for item in made.plan.recommendations} == {Change.KEEP}


#: Writes one digest of many plans; sets come in another order under another seed.
_DIGEST = """
import hashlib, json
from planning import recommend
from planning.results.snapshot import plan_to_dict
from tests.planning.sweep import states
text = "".join(json.dumps(plan_to_dict(recommend(*found))) for found in states(60))
print(hashlib.sha256(text.encode()).hexdigest())
"""


def test_the_same_input_gives_the_same_bytes_in_another_process() -> None:
    root = Path(__file__).parents[2]
    digests = {
        subprocess.run(
            [sys.executable, "-c", _DIGEST],
            cwd=root,
            env={"PYTHONHASHSEED": seed, "PATH": ""},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(digests) == 1


def mirrored(found: Findings) -> Findings:
    """Left and right exchanged everywhere."""
    m, system = found.measurement, found.system
    hour = _hour(m.lumen_hour)
    axis = None if m.axis_hour is None else 6 - m.axis_hour or 6
    radii = None if m.radii_mm is None else (*reversed(m.radii_mm[:11]), m.radii_mm[11])
    junction = _each(m.junction)
    abdomen = found.abdomen
    loop = None if m.loop is None else replace(m.loop, working_hour=_hour(m.loop.working_hour))
    return replace(
        found,
        measurement=replace(
            m,
            lumen_hour=hour,
            axis_hour=axis,
            radii_mm=radii,
            junction=junction,
            loop=loop,
            colour_parts=_each(m.colour_parts),
        ),
        skin=_each(found.skin),
        wounds=_each(found.wounds),
        other_stomas=_each(found.other_stomas),
        abdomen=replace(
            abdomen,
            creases=_each(abdomen.creases),
            bulges=_each(abdomen.bulges),
        ),
        system=None
        if system is None
        else replace(
            system,
            erosion=None if system.erosion is None else system.erosion.mirrored(),
            leak=None if system.leak is None else system.leak.mirrored(),
            load=None if system.load is None else system.load.mirrored(),
            lifts=None if system.lifts is None else system.lifts.mirrored(),
            placed_towards=_hour(system.placed_towards),
        ),
    )


def _hour(hour: int | None) -> int | None:
    return None if hour is None else 12 - hour or 12


T = TypeVar("T", Separation, SkinFinding, Crease, Bulge, ColourPart, Wound, OtherStoma)


def _each(parts: tuple[T, ...] | None) -> tuple[T, ...] | None:
    return None if parts is None else tuple(map(_mirrored, parts))


def _mirrored(part: T) -> T:
    return replace(part, hours=part.hours.mirrored())
