"""What cannot be is refused, with its field; what is only unlikely is not."""

from __future__ import annotations

from typing import Any

import pytest

from planning import InvalidFindings, recommend
from planning.inputs.check import check
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Ability,
    Bulge,
    Condition,
    Construction,
    Crease,
    LumenPosition,
    Person,
    Profile,
    Prolapse,
    RemovalReason,
    Separation,
    SkinFinding,
    SkinKind,
    Symptom,
    WearEpisode,
)
from tests.planning.builders import LOW, WELL, raw, well

LIVER = frozenset({Condition.LIVER_DISEASE})
FEVER = frozenset({Symptom.FEVER})


@pytest.mark.parametrize(
    ("changes", "path"),
    [
        ({"length_mm": 0.0}, "measurement.length_mm"),
        ({"width_mm": -3.0}, "measurement.width_mm"),
        ({"length_mm": 301.0}, "measurement.length_mm"),
        ({"length_mm": float("nan")}, "measurement.length_mm"),
        ({"volume_ml_24h": float("inf")}, "output.volume_ml_24h"),
        ({"axis_hour": 7}, "measurement.axis_hour"),
        ({"radii_mm": (15.0,) * 11}, "measurement.radii_mm"),
        ({"radii_mm": (15.0,) * 11 + (0.0,)}, "measurement.radii_mm[11]"),
        ({"widest_mm": 29.0}, "measurement.widest_mm"),
        ({"lumen": LumenPosition.OFF_CENTRE}, "measurement.lumen_hour"),
        ({"lumen": LumenPosition.CENTRE, "lumen_hour": 6}, "measurement.lumen_hour"),
        ({"lumen": LumenPosition.OFF_CENTRE, "lumen_hour": 13}, "measurement.lumen_hour"),
        ({"prolapse": (Prolapse(),), "protrusion_mm": -1.0}, "measurement.protrusion_mm"),
        ({"prolapse": (Prolapse(-1.0),)}, "measurement.prolapse[0].extra_length_mm"),
        ({"junction": (Separation(ClockHours()),)}, "measurement.junction[0].hours"),
        ({"junction": (Separation(LOW, -1.0),)}, "measurement.junction[0].depth_mm"),
        ({"skin": (raw(inner_mm=15.0),)}, "skin[0].outer_mm"),
        ({"skin": (raw(), raw(outer_mm=0.0))}, "skin[1].outer_mm"),
        ({"skin": (SkinFinding(SkinKind.ULCER, ClockHours()),)}, "skin[0].hours"),
        ({"creases": (Crease(ClockHours()),)}, "abdomen.creases[0].hours"),
        ({"creases": (Crease(LOW, -1.0),)}, "abdomen.creases[0].depth_mm"),
        ({"bulges": (Bulge(LOW, -1.0),)}, "abdomen.bulges[0].height_mm"),
        ({"bulges": (Bulge(LOW, 5.0, 0.0),)}, "abdomen.bulges[0].width_mm"),
        ({"pain_0_10": 11}, "output.pain_0_10"),
        ({"hours_without_output": -1.0}, "output.hours_without_output"),
        ({"present": FEVER, "absent": FEVER}, "output.present"),
        ({"convex_depth_mm": 4.0}, "system.convex_depth_mm"),
        ({"opening_length_mm": 0.0}, "system.opening_length_mm"),
        ({"wear": (WearEpisode(-1.0, RemovalReason.LEAK),)}, "wear[0].days"),
        ({"days_since_surgery": -1}, "stoma.days_since_surgery"),
        ({"construction": Construction.END, "rod_in_place": True}, "stoma.rod_in_place"),
        ({"person": Person(has=LIVER, has_not=LIVER)}, "person.has"),
        ({"person": Person(eyesight=Ability.ONE_HAND)}, "person.eyesight"),
        ({"age_years": -1}, "person.age_years"),
        ({"age_years": 131}, "person.age_years"),
    ],
)
def test_the_impossible_is_refused_at_its_field(changes: dict[str, Any], path: str) -> None:
    found = well(**changes)
    assert [error.path for error in check(found)] == [path]
    with pytest.raises(InvalidFindings) as caught:
        recommend(found)
    assert caught.value.errors == check(found)
    assert caught.value.errors[0].message.endswith((".", "?"))


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"protrusion_mm": 120.0},
        {"opening_length_mm": 26.0, "opening_width_mm": 26.0},
        {"wear": (WearEpisode(20.0, RemovalReason.PLANNED),)},
        {"length_mm": 30.0, "width_mm": None},
        {"profile": Profile.CONVEX, "convex_depth_mm": 4.0},
        {"volume_ml_24h": 4000.0},
    ],
)
def test_the_unlikely_is_not_refused(changes: dict[str, Any]) -> None:
    assert check(well(**changes)) == ()


def test_every_error_is_reported_at_once() -> None:
    """The ranges first, in the order of the form, then what contradicts itself."""
    errors = check(well(length_mm=0.0, width_mm=0.0, pain_0_10=12))
    assert [e.path for e in errors] == [
        "measurement.length_mm",
        "measurement.width_mm",
        "output.pain_0_10",
    ]


def test_an_opening_smaller_than_the_stoma_is_noticed() -> None:
    plan = recommend(well(opening_length_mm=26.0, opening_width_mm=26.0))
    assert not plan.leave_alone
    assert any("smaller than the stoma" in notice.text for notice in plan.notices)
    assert plan.causes.causes[0].key == "opening_too_small"


def test_a_wear_time_beyond_two_weeks_is_noticed() -> None:
    plan = recommend(well(wear=(WearEpisode(20.0, RemovalReason.PLANNED),)))
    assert any("slip of the pen" in notice.text for notice in plan.notices)


def test_well_is_sound() -> None:
    assert check(WELL) == ()
