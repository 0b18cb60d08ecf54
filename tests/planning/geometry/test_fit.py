"""Dome, ring and step beside a bulge."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.geometry.barrier import BELT_LINE, barrier_reach, fistula_near
from planning.geometry.bulge import level, low_side_gap
from planning.geometry.burden import landing_zone, skin_burden
from planning.geometry.convexity import Depth, depth_class, lift_wanted, outlet_height
from planning.geometry.outline import ellipse
from planning.geometry.ring import fit_ring, stretched_thickness
from planning.inputs.clock import ClockHours
from planning.inputs.findings import LumenPosition, SkinKind
from tests.planning.builders import ALL, LOW, raw, seen


@pytest.mark.parametrize(
    ("depth", "name"),
    [
        (2.9, Depth.SHALLOW),
        (3.0, Depth.SHALLOW),
        (3.1, Depth.MODERATE),
        (7.9, Depth.MODERATE),
        (8.0, Depth.DEEP),
    ],
)
def test_bands_of_depth(depth: float, name: Depth) -> None:
    """McNichol 2021; the limits between whole millimetres are a design value."""
    assert depth_class(depth) is name


@pytest.mark.parametrize(
    ("height", "lift"), [(25, 0), (10, 0), (9, 1), (7, 3), (4, 3), (0, 3), (-1, 4), (-5, 8)]
)
def test_lift_wanted(height: float, lift: float) -> None:
    assert lift_wanted(height) == pytest.approx(lift)


def test_flush_takes_shallow_to_moderate_and_retracted_deep() -> None:
    """McNichol 2021: flush: shallow to moderate; retracted: deeper."""
    assert {depth_class(lift_wanted(h)) for h in (-4, -2, 0, 2, 4)} == {
        Depth.SHALLOW,
        Depth.MODERATE,
    }
    assert depth_class(lift_wanted(-5)) is Depth.DEEP


@given(st.floats(-40, 60), st.floats(-40, 60))
def test_a_lower_outlet_never_wants_less_lift(one: float, other: float) -> None:
    low, high = min(one, other), max(one, other)
    assert lift_wanted(low) >= lift_wanted(high) >= 0


def test_a_lumen_at_skin_level_counts_as_no_height() -> None:
    assert outlet_height(25, LumenPosition.SKIN_LEVEL) == 0
    assert outlet_height(-3, LumenPosition.SKIN_LEVEL) == -3
    assert outlet_height(25, LumenPosition.CENTRE) == 25


def test_ring_volume_model() -> None:
    """By hand: 4.5 (50² - 18²) / (68² - 36²) mm for a 50/18 mm ring stretched to 36 mm."""
    assert stretched_thickness(36) == pytest.approx(2.94, abs=0.005)
    assert fit_ring(ellipse(36, 36)).outer_mm == pytest.approx(68)


@pytest.mark.parametrize(
    ("stoma", "cut", "pieces"), [(17, True, 1), (18, False, 1), (36, False, 1), (36.5, True, 2)]
)
def test_when_a_ring_is_cut(stoma: float, cut: bool, pieces: int) -> None:
    ring = fit_ring(ellipse(stoma, stoma))
    assert (ring.cut_and_overlap, ring.pieces) == (cut, pieces)


def test_a_ring_is_cut_where_a_wide_tip_must_pass() -> None:
    assert fit_ring(ellipse(30, 30), passing_mm=45).cut_and_overlap


@given(st.floats(10, 60), st.floats(10, 60))
def test_the_ring_is_as_long_round_as_the_stoma(length: float, width: float) -> None:
    edge = ellipse(length, width)
    assert math.pi * fit_ring(edge).inner_mm == pytest.approx(edge.perimeter_mm)


@given(st.floats(18, 36))
def test_stretching_keeps_the_volume(inner: float) -> None:
    before = 4.5 * (50**2 - 18**2)
    assert stretched_thickness(inner) * ((inner + 32) ** 2 - inner**2) == pytest.approx(before)


def test_step_beside_a_bulge() -> None:
    """Similar triangles: 15 mm high, 60 wide, radius 16: 15 x 34.8 / 96.8 mm."""
    assert low_side_gap(15, 60, 16) == pytest.approx(15 * 34.8 / 96.8)


@pytest.mark.parametrize(
    ("gap", "layers", "paste", "too_high"),
    [
        (2, 1, 0, False),
        (4.5, 1, 0, False),
        (5.5, 1, 1, False),
        (9, 2, 0, False),
        (18, 3, 4.5, True),
    ],
)
def test_half_rings_then_paste(gap: float, layers: int, paste: float, too_high: bool) -> None:
    fill = level(gap)
    assert (fill.layers, fill.too_high) == (layers, too_high)
    assert fill.paste_mm == pytest.approx(paste)


def test_damage_all_round_is_a_ring() -> None:
    edge = ellipse(30, 30)
    burden = skin_burden((raw(ALL),), edge)
    assert burden == pytest.approx(math.pi * (30**2 - 15**2), rel=1e-6)


def test_five_hours_are_five_twelfths() -> None:
    edge = ellipse(30, 30)
    assert skin_burden((raw(LOW),), edge) == pytest.approx(5 / 12 * math.pi * (30**2 - 15**2))


def test_overlapping_damage_counts_once() -> None:
    edge = ellipse(30, 24)
    one = skin_burden((raw(LOW),), edge)
    assert skin_burden((raw(LOW), raw(LOW, inner_mm=5.0, outer_mm=10.0)), edge) == one


def test_damage_away_from_the_edge_is_counted_from_where_it_begins() -> None:
    """By hand: radius 15, damage from 5 to 15 mm out, so a ring from 20 to 30 mm:
    pi (900 - 400) = 1570.796 mm2."""
    burden = skin_burden((raw(ALL, inner_mm=5.0, outer_mm=15.0),), ellipse(30, 30))
    assert burden == pytest.approx(1570.796, abs=0.01)


def test_two_rings_apart_leave_out_the_sound_skin_between() -> None:
    """By hand: radius 15, rings 15 to 20 and 25 to 30 mm: pi (175 + 275) = 1413.717 mm2."""
    rings = (raw(ALL, outer_mm=5.0), raw(ALL, inner_mm=10.0))
    assert skin_burden(rings, ellipse(30, 30)) == pytest.approx(1413.717, abs=0.01)


@pytest.mark.parametrize("kind", [SkinKind.DILATED_VEINS, SkinKind.HARD_LUMP, SkinKind.FISTULA])
def test_veins_lumps_and_openings_are_no_damaged_skin(kind: SkinKind) -> None:
    assert skin_burden((seen(kind, ALL),), ellipse(30, 30)) == 0


@pytest.mark.parametrize("hour", range(1, 13))
def test_one_hour_of_an_oval_is_counted_at_its_own_place(hour: int) -> None:
    """40 x 20 mm, long way 12 to 6, damage to 10 mm. With edge r the sector holds the integral of
    (20 r + 100) / 2 over 30 degrees; r = 200 / sqrt(100 cos2 + 400 sin2), by Simpson's rule."""

    def height(degrees: float) -> float:
        t = math.radians(degrees)
        return 10 * 200 / math.sqrt(100 * math.cos(t) ** 2 + 400 * math.sin(t) ** 2) + 50

    parts = [height(30 * hour - 15 + 3 * i) for i in range(11)]
    simpson = parts[0] + parts[-1] + 4 * sum(parts[1:-1:2]) + 2 * sum(parts[2:-1:2])
    burden = skin_burden((raw(ClockHours.of(hour), outer_mm=10.0),), ellipse(40, 20))
    assert burden == pytest.approx(simpson * math.radians(3) / 3, rel=0.005)


def test_unknown_is_not_none() -> None:
    edge = ellipse(30, 30)
    assert skin_burden(None, edge) is None
    assert skin_burden((), None) == 0
    assert skin_burden((raw(outer_mm=None),), edge) is None
    assert skin_burden((raw(inner_mm=None),), edge) is None
    assert skin_burden((raw(), raw(outer_mm=None)), edge) is None
    assert skin_burden((raw(),), None) is None


def test_landing_zone_of_a_four_inch_barrier() -> None:
    assert landing_zone(ellipse(30, 30)) == pytest.approx(math.pi * (50.8**2 - 15**2))


def test_a_stoma_as_wide_as_the_barrier_leaves_no_landing_zone() -> None:
    """Four inches are 101.6 mm."""
    assert landing_zone(ellipse(101.6, 101.6)) == pytest.approx(0, abs=1e-9)
    assert landing_zone(ellipse(110, 110)) == 0


def test_a_belt_lies_at_three_and_nine_and_an_hour_to_either_side() -> None:
    assert ClockHours.of(3, 9).widened() == BELT_LINE


@pytest.mark.parametrize(
    ("start", "near"), [(45.8, True), (45.9, False), (0.0, True), (None, True)]
)
def test_a_fistula_is_near_up_to_a_centimetre_beyond_the_barrier(
    start: float | None, near: bool
) -> None:
    """By hand: four inches across reach 50.8 - 15 = 35.8 mm from a stoma of 30 mm; and 10 mm."""
    assert fistula_near(start, ellipse(30, 30)) is near


def test_the_barrier_reaches_furthest_beside_the_narrow_side() -> None:
    """By hand: 50.8 less half of 20 mm; from the middle where the stoma was not measured."""
    assert barrier_reach(ellipse(40, 20)) == pytest.approx(40.8)
    assert barrier_reach(None) == pytest.approx(50.8)
