"""Every declared range, set down a second time by hand: none moves by a slip.

All are design values: a range stops a slip of the hand. What patients are known to have lies well
inside it, so that no true figure is refused.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning.evidence.sources import DESIGN
from planning.inputs.check import check
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Begun,
    Bulge,
    Crease,
    Findings,
    LeakCount,
    LoopOpenings,
    OtherStoma,
    Product,
    Profile,
    Prolapse,
    Separation,
    Vitals,
    Wound,
)
from planning.inputs.quantities import QUANTITIES, Quantity
from tests.planning.builders import LOW, WELL, raw, well

#: Path: lowest, highest, unit, digits after the point.
RANGES = {
    "person.age_years": (0, 130, "years", 0),
    "person.weight_kg": (0.2, 400, "kg", 2),
    "person.pregnant_weeks": (0, 45, "weeks", 0),
    "measurement.length_mm": (0.1, 300, "mm", 1),
    "measurement.width_mm": (0.1, 300, "mm", 1),
    "measurement.protrusion_mm": (-150, 500, "mm", 1),
    "measurement.protrusion_sitting_mm": (-150, 500, "mm", 1),
    "measurement.protrusion_standing_mm": (-150, 500, "mm", 1),
    "measurement.loop.working_mm": (-150, 500, "mm", 1),
    "measurement.loop.resting_mm": (-150, 500, "mm", 1),
    "measurement.bleeding_stops_min": (0, 1000, "min", 1),
    "measurement.bleeding_stopped_days": (0, 1000, "days", 1),
    "measurement.widest_mm": (0.1, 300, "mm", 1),
    "measurement.radii_mm[]": (0.1, 300, "mm", 1),
    "measurement.junction[].depth_mm": (0, 300, "mm", 1),
    "measurement.prolapse[].extra_length_mm": (0, 500, "mm", 1),
    "skin[].inner_mm": (0, 300, "mm", 1),
    "skin[].outer_mm": (0, 300, "mm", 1),
    "skin[].hours_to_spread": (0, 1000, "h", 1),
    "skin[].fades_min": (0, 5000, "min", 1),
    "skin[].stays_min": (0, 5000, "min", 1),
    "skin[].minutes_after_contact": (0, 5000, "min", 1),
    "skin[].days": (0, 40_000, "days", 0),
    "skin[].across_mm": (0.1, 300, "mm", 1),
    "skin[].pain_0_10": (0, 10, "", 0),
    "wounds[].distance_mm": (0, 300, "mm", 1),
    "wounds[].length_mm": (0.1, 500, "mm", 1),
    "wounds[].width_mm": (0.1, 500, "mm", 1),
    "wounds[].depth_mm": (0, 300, "mm", 1),
    "other_stomas[].distance_mm": (0, 300, "mm", 1),
    "other_stomas[].length_mm": (0.1, 300, "mm", 1),
    "other_stomas[].width_mm": (0.1, 300, "mm", 1),
    "abdomen.creases[].depth_mm": (0, 300, "mm", 1),
    "abdomen.bulges[].height_mm": (0, 300, "mm", 1),
    "abdomen.bulges[].width_mm": (0.1, 300, "mm", 1),
    "output.volume_ml_24h": (0, 20_000, "mL/24 h", 0),
    "output.watery_for_hours": (0, 1000, "h", 1),
    "output.hours_without_output": (0, 1000, "h", 1),
    "output.pain_0_10": (0, 10, "", 0),
    "output.urine_ml_24h": (0, 20_000, "mL/24 h", 0),
    "output.hours_without_urine": (0, 1000, "h", 1),
    "output.usual_ml_24h": (0, 20_000, "mL/24 h", 0),
    "output.days_at_volume": (0, 1000, "days", 0),
    "output.stools_per_day": (0, 100, "", 1),
    "output.urine_ph": (1, 14, "", 1),
    "output.stents": (0, 10, "", 0),
    "output.vitals.temperature_c": (20, 45, "°C", 1),
    "output.vitals.highest_c": (20, 45, "°C", 1),
    "output.vitals.antipyretic_hours": (0, 1000, "h", 1),
    "output.vitals.pulse": (0, 350, "/min", 0),
    "output.vitals.breaths": (0, 150, "/min", 0),
    "output.vitals.systolic_mmhg": (0, 350, "mmHg", 0),
    "system.convex_depth_mm": (0.1, 30, "mm", 1),
    "system.opening_length_mm": (0.1, 300, "mm", 1),
    "system.opening_width_mm": (0.1, 300, "mm", 1),
    "system.leak_count.leaks": (0, 1000, "", 0),
    "system.leak_count.barriers": (1, 1000, "", 0),
    "system.usual_wear_days": (0, 1000, "days", 1),
    "system.begun[].days": (0, 40_000, "days", 0),
}


def test_every_range_is_what_is_written_here() -> None:
    assert {
        one.path: (one.lowest, one.highest, one.unit, one.decimals) for one in QUANTITIES
    } == RANGES
    assert {one.source for one in QUANTITIES} == {DESIGN}


@pytest.mark.parametrize("quantity", QUANTITIES, ids=lambda one: one.path)
def test_the_planner_takes_the_limits_and_nothing_beyond_them(quantity: Quantity) -> None:
    assert refused(quantity, quantity.lowest) == refused(quantity, quantity.highest) == []
    step = 10.0**-quantity.decimals
    for beyond in (quantity.lowest - step, quantity.highest + step):
        (said,) = refused(quantity, beyond)
        assert said == f"{quantity.label}: {quantity.range_words}, not {beyond:g}."


def refused(quantity: Quantity, value: float) -> list[str]:
    """What the planner says of the range where only this ``value`` is charted."""
    return [
        error.message
        for error in check(charted(quantity, value))
        if error.message.startswith(f"{quantity.label}: ")
    ]


def charted(quantity: Quantity, value: float) -> Findings:
    name = quantity.name
    changed: dict[str, Any] = {name: value}
    deeper: dict[str, Any] = {
        "output.vitals": Vitals(),
        "measurement.loop": LoopOpenings(),
        "system.leak_count": LeakCount(leaks=0, barriers=1000),
    }
    if of_deeper := deeper.get(quantity.part):
        return well(**{quantity.part.split(".")[1]: replace(of_deeper, **changed)})
    if "[]" not in quantity.path:
        return well(**changed)
    if name == "radii_mm":
        return well(radii_mm=(15.0,) * 11 + (value,))
    if quantity.path.startswith("skin"):
        return well(skin=(raw(), replace(raw(inner_mm=None, outer_mm=None), **changed)))
    if quantity.path.startswith("wounds"):
        return well(wounds=(replace(Wound(LOW), **changed),))
    if quantity.path.startswith("other_stomas"):
        return well(other_stomas=(replace(OtherStoma(LOW), **changed),))
    several: dict[str, Any] = {
        "junction": Separation(LOW),
        "prolapse": Prolapse(),
        "creases": Crease(LOW),
        "bulges": Bulge(LOW),
        "begun": Begun(Product.RING, 3),
    }
    of = quantity.path.split(".")[1].removesuffix("[]")
    return well(**{of: (replace(several[of], **changed),)})


def test_a_value_is_named_by_its_own_place() -> None:
    found = well(
        skin=(raw(), raw(outer_mm=999.0)),
        bulges=(Bulge(ClockHours.of(9), width_mm=0.0),),
        profile=Profile.CONVEX,
        convex_depth_mm=31.0,
    )
    assert [error.path for error in check(found)] == [
        "skin[1].outer_mm",
        "abdomen.bulges[0].width_mm",
        "system.convex_depth_mm",
    ]


def test_what_is_not_recorded_is_in_no_range() -> None:
    nothing = replace(WELL, skin=None, wear=None, system=None)
    assert [one.path for one in QUANTITIES for _ in one.found_in(nothing)] == [
        "person.age_years",
        "measurement.length_mm",
        "measurement.width_mm",
        "measurement.protrusion_mm",
        "output.volume_ml_24h",
    ]
