"""What the trend draws: a recorded value is a point, a missing one is none."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from planning.course.periods import in_order
from planning.course.record import Worn
from planning.course.results import Bar, Point, Sighting, Spot
from planning.course.series import output_lines, series, zones
from planning.course.skin import damage_kinds, damaged, damaged_hours
from planning.evidence.citation import CITABLE
from planning.facts.height import Height, height_of
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Baseline,
    BaselineKind,
    Bulge,
    Prolapse,
    Separation,
    SkinKind,
    StomaKind,
)
from tests.planning.builders import raw, well
from tests.planning.builders import seen as finding
from tests.planning.course.course_builders import LEAK, PLANNED, course, day, log, seen, visit


def test_a_missing_value_has_no_point_and_nothing_is_put_in_its_place() -> None:
    drawn = series(seen(protrusion_mm=(25.0, None, 0.0)))
    assert drawn.of("protrusion") == (Point(day(0), 25.0), Point(day(28), 0.0))


def test_every_visit_says_whether_it_was_apart_or_bulged_and_what_it_left_open() -> None:
    """Not recorded is None, looked and none is (); no size is put in place of an unknown one."""
    apart = Separation(ClockHours.arc(6, 7), depth_mm=4.0)
    beside = Bulge(ClockHours.of(9), width_mm=80.0)
    drawn = series(
        course(
            visit(0, well(junction=(apart,), bulges=None)),
            visit(14, well(junction=None, bulges=(beside,))),
            visit(28, well(junction=(), bulges=())),
        )
    )
    assert drawn.separation == (
        Sighting(day(0), (Spot(ClockHours.of(6, 7), (("deep", 4.0),)),)),
        Sighting(day(14), None),
        Sighting(day(28), ()),
    )
    assert [one.spots for one in drawn.bulge] == [
        None,
        (Spot(ClockHours.of(9), (("wide", 80.0),)),),
        (),
    ]


def test_every_series_reads_its_own_value() -> None:
    alone = {
        "length_mm": 31.0,
        "width_mm": 28.0,
        "protrusion_mm": 24.0,
        "volume_ml_24h": 900.0,
        "weight_kg": 71.5,
    }
    drawn = series(course(visit(0, well(skin=(raw(),), **alone))))
    values = {key: [p.value for p in points] for key, points in drawn.points if points}
    del values["burden"]
    assert values == {
        "protrusion": [24.0],
        "length": [31.0],
        "width": [28.0],
        "output": [900.0],
        "weight": [71.5],
    }
    assert len(drawn.of("burden")) == 1


def test_what_most_never_have_is_drawn_once_it_was_found() -> None:
    """Then with the visits that looked and found none."""
    for key, before in (("prolapse", "prolapse"), ("bulge_height", "bulges")):
        found = {"prolapse": (Prolapse(12.0),), "bulges": (Bulge(ClockHours.of(3), 9.0, 40.0),)}
        never = series(seen(**{before: ((), None, ())}))
        assert never.of(key) == ()
        once = series(seen(**{before: ((), None, found[before])}))
        assert [(p.day, p.value > 0) for p in once.of(key)] == [(day(0), False), (day(28), True)]


def test_the_burden_is_the_area_of_a_ring_by_hand() -> None:
    """All round a circle of radius 15, 10 mm wide: pi (25 squared - 15 squared)."""
    spot = raw(ClockHours.all_round(), outer_mm=10.0)
    drawn = series(course(visit(0, well(skin=(spot,)))))
    assert drawn.of("burden")[0].value == pytest.approx(math.pi * 400, rel=1e-6)


def test_intact_skin_is_a_point_at_zero_and_skin_not_looked_at_is_none() -> None:
    drawn = series(seen(skin=((), None)))
    assert drawn.of("burden") == (Point(day(0), 0.0),)
    assert [face.intact for face in drawn.faces] == [True]


def test_skin_not_looked_at_has_no_damage_to_name() -> None:
    unseen = well(skin=None)
    assert damaged(unseen) is None
    assert (damage_kinds(unseen), damaged_hours(unseen)) == ((), ClockHours())


def test_damage_without_a_size_has_a_face_and_no_point() -> None:
    drawn = series(course(visit(0, well(skin=(raw(outer_mm=None),)))))
    assert drawn.of("burden") == ()
    assert not drawn.faces[0].intact
    assert drawn.faces[0].kinds == ("erosion",)


def test_a_finding_that_is_no_damage_leaves_the_face_intact() -> None:
    veins = finding(SkinKind.DILATED_VEINS)
    face = series(course(visit(0, well(skin=(veins,))))).faces[0]
    assert (face.intact, face.kinds, face.hours) == (True, (), ClockHours())


def test_twelve_radii_give_length_and_width_where_no_axis_was_charted() -> None:
    radii = (16.0, 17.0, 18.5, 17.0, 16.0, 12.0, 15.0, 14.0, 15.5, 14.0, 16.0, 13.0)
    drawn = series(course(visit(0, well(radii_mm=radii, length_mm=None, width_mm=None))))
    assert drawn.of("length")[0].value == 25.0  # 12 and 6 o'clock: 13 + 12
    assert drawn.of("width")[0].value == 34.0  # 3 and 9 o'clock: 18.5 + 15.5
    both = series(course(visit(0, well(radii_mm=radii, length_mm=26.0, width_mm=31.0))))
    assert [both.of(way)[0].value for way in ("length", "width")] == [26.0, 31.0]
    neither = series(course(visit(0, well(length_mm=None, width_mm=None))))
    assert [neither.of(way) for way in ("length", "width")] == [(), ()]


def test_a_bar_still_on_has_no_end_and_what_lies_ahead_is_not_known_yet() -> None:
    worn = (*log(0, [(3, LEAK)]), Worn(day(3)), Worn(day(58), day(61), PLANNED))
    worn = (*worn, Worn(day(60)), Worn(day(61)))
    bars = series(course(visit(0), today=60, worn=worn)).bars
    assert bars == (
        Bar(day(0), day(3), LEAK),
        Bar(day(3), None, None),
        Bar(day(58), None, None),
        Bar(day(60), None, None),
    )


def test_a_bar_still_on_says_when_it_was_last_seen() -> None:
    worn = (Worn(day(3), seen_on=day(5)), Worn(day(8), seen_on=day(70)))
    bars = series(course(visit(0), today=60, worn=worn)).bars
    assert bars == (Bar(day(3), None, None, day(5)), Bar(day(8), None, None, day(60)))


def test_the_order_that_comes_in_does_not_matter() -> None:
    given = seen(protrusion_mm=(25.0, 24.0, 20.0), length_mm=(30.0, 31.0, 32.0))
    turned = course(*reversed(given.visits), today=42)
    assert series(turned) == series(given)
    assert in_order(turned) == in_order(given)


_LIMITS = {
    StomaKind.ILEOSTOMY: (-5.0, 4.0, 20.0, 30.0),
    StomaKind.JEJUNOSTOMY: (-5.0, 4.0, 20.0, 30.0),
    StomaKind.COLOSTOMY: (-5.0, 4.0, 5.0, 15.0),
    StomaKind.UROSTOMY: (-5.0, 4.0, 20.0, 30.0),
}


@pytest.mark.parametrize("kind", list(StomaKind))
def test_zones_lie_end_to_end_at_the_limits_of_the_kind(kind: StomaKind) -> None:
    """Persson 2010: an ileostomy under 20 mm, a colostomy under 5 mm leaks."""
    found = zones(kind)
    assert [zone.key for zone in found] == [height.value for height in Height]
    assert tuple(zone.high for zone in found[:-1]) == _LIMITS[kind]
    assert tuple(zone.low for zone in found[1:]) == _LIMITS[kind]
    assert found[0].low is None
    assert found[-1].high is None
    assert {source for zone in found for source in zone.sources} <= CITABLE


def test_a_short_urostomy_does_not_rest_on_a_study_of_ileostomies() -> None:
    """Persson 2010 measured ileostomies and colostomies; for urine the height is a design value."""
    short = {kind: zones(kind)[2].sources[-1] for kind in StomaKind}
    assert short[StomaKind.ILEOSTOMY] == "persson2010/ileostomy"
    assert short[StomaKind.COLOSTOMY] == "persson2010/colostomy"
    assert short[StomaKind.UROSTOMY] == "design_value"


@pytest.mark.parametrize("kind", list(StomaKind))
@pytest.mark.parametrize("tenths", range(-80, 400, 3))
def test_a_height_lies_in_the_zone_of_its_class(kind: StomaKind, tenths: int) -> None:
    value = tenths / 10 + 0.05  # off every limit
    inside = [
        zone.key
        for zone in zones(kind)
        if (zone.low is None or value > zone.low) and (zone.high is None or value < zone.high)
    ]
    assert inside == [height_of(kind, value)]


def test_lines_of_high_output_and_none_for_urine() -> None:
    usual = course(kind=StomaKind.ILEOSTOMY)
    assert [line.value for line in output_lines(usual)] == [1000, 1500, 2000]
    assert output_lines(course(kind=StomaKind.UROSTOMY)) == ()
    # A quarter, or 500 mL, above an agreed target (facts of 2026, section 5: design value).
    for target, alarm in ((1200.0, 1500), (2400.0, 2900)):
        agreed = Baseline(BaselineKind.OUTPUT_TARGET, "nutrition team", value=target)
        lines = output_lines(replace(usual, baselines=(agreed,)))
        assert [line.value for line in lines] == [target, alarm]


def test_a_target_agreed_without_a_figure_leaves_the_usual_lines() -> None:
    usual = course(kind=StomaKind.ILEOSTOMY)
    agreed = Baseline(BaselineKind.OUTPUT_TARGET, "nutrition team")
    assert output_lines(replace(usual, baselines=(agreed,))) == output_lines(usual)


@pytest.mark.parametrize(("taken_off", "ended"), [(59, True), (60, True), (61, False)])
def test_a_barrier_taken_off_today_has_come_off(taken_off: int, ended: bool) -> None:
    worn = (Worn(day(55), day(taken_off), LEAK),)
    (bar,) = series(course(visit(0), today=60, worn=worn)).bars
    assert bar == (Bar(day(55), day(taken_off), LEAK) if ended else Bar(day(55), None, None))
