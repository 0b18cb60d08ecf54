"""Outlines against the exact ellipse (SciPy), Shapely and published figures."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ellipe
from shapely import Polygon

from planning.geometry.outline import ellipse, ellipse_perimeter, outline_of, traced
from planning.inputs.findings import Measurement

SIZES = st.floats(10, 80)


@pytest.mark.parametrize(
    ("a", "b", "perimeter"),
    [
        (10, 10, 62.831853),
        (15, 10, 79.327198),
        (17.5, 12.5, 94.903422),
        (20, 15, 110.517461),
        (25, 10, 115.065562),
    ],
)
def test_published_perimeters(a: float, b: float, perimeter: float) -> None:
    """Ramanujan's second approximation, worked out apart from our code."""
    assert ellipse_perimeter(a, b) == pytest.approx(perimeter, abs=1e-6)


@given(SIZES, SIZES)
def test_perimeter_against_the_elliptic_integral(length: float, width: float) -> None:
    """SciPy ``ellipe``, which takes the parameter m."""
    a, b = max(length, width) / 2, min(length, width) / 2
    exact = 4 * a * float(ellipe(1 - b * b / (a * a)))
    assert ellipse(length, width).perimeter_mm == pytest.approx(exact, rel=2e-5)


def test_forty_by_twenty_eight() -> None:
    """Ramanujan's first approximation gives 107.6 mm too."""
    assert ellipse(40, 28).perimeter_mm == pytest.approx(107.6, abs=0.05)


@given(SIZES, SIZES, st.integers(1, 6))
def test_the_drawn_edge_has_the_ellipse_area(length: float, width: float, hour: int) -> None:
    edge = ellipse(length, width, hour * 30)
    assert Polygon(edge.points).area == pytest.approx(edge.area_mm2, rel=0.02)
    assert edge.area_mm2 == pytest.approx(math.pi * length * width / 4)


def test_the_length_axis_turns_to_its_hour() -> None:
    upright = outline_of(Measurement(length_mm=40, width_mm=20))
    turned = outline_of(Measurement(length_mm=40, width_mm=20, axis_hour=3))
    assert upright is not None
    assert turned is not None
    assert upright.radius_at(12) == pytest.approx(20)
    assert upright.radius_at(3) == pytest.approx(10)
    assert turned.radius_at(3) == pytest.approx(20)
    leaning = outline_of(Measurement(length_mm=40, width_mm=20, axis_hour=2))
    assert leaning is not None
    assert leaning.radius_at(2) == leaning.radius_at(8) == pytest.approx(20)
    assert leaning.radius_at(5) == leaning.radius_at(11) == pytest.approx(10)
    assert leaning.ratio == pytest.approx(2)


def test_hour_nought_is_twelve_o_clock() -> None:
    shape = ellipse(40, 28)
    assert shape.radius_at(0) == shape.radius_at(12) == pytest.approx(20, abs=0.01)


def test_twelve_equal_radii_give_a_circle() -> None:
    """Straight lines between twelve readings would lose 4.5 % of the area (factor 0.95493)."""
    circle = traced((15.0,) * 12)
    assert circle.area_mm2 == pytest.approx(math.pi * 225, rel=0.001)
    assert circle.length_mm == circle.width_mm == pytest.approx(30)


def test_a_traced_edge_passes_through_its_readings() -> None:
    radii = (12.0, 14, 15, 16, 15, 14, 13, 12, 11, 12, 13, 14)
    edge = traced(radii)
    assert [edge.radius_at(h) for h in range(1, 13)] == pytest.approx(list(radii))


@given(st.lists(st.floats(5, 60), min_size=12, max_size=12))
def test_a_traced_edge_is_a_simple_shape(radii: list[float]) -> None:
    edge = traced(tuple(radii))
    polygon = Polygon(edge.points)
    assert polygon.is_valid
    assert edge.area_mm2 == pytest.approx(polygon.area)
    assert edge.perimeter_mm == pytest.approx(polygon.length)
    assert edge.length_mm >= edge.width_mm


def test_without_a_size_there_is_no_outline() -> None:
    assert outline_of(Measurement()) is None
    assert outline_of(Measurement(length_mm=30)) is None


def test_across_is_the_circle_that_holds_the_whole_edge() -> None:
    """Of an oval its longer way; of a lopsided edge twice its furthest hour."""
    assert ellipse(40, 20, 60).across_mm == pytest.approx(40)
    assert traced((10.0,) * 5 + (14.0,) + (10.0,) * 6).across_mm == pytest.approx(28)


def test_the_width_of_a_traced_edge_lies_across_its_longest_line() -> None:
    """20 mm out at 2 and 8 o'clock, 12 mm at 5 and 11, 15 mm between: 40 mm and 24 mm."""
    radii = (15.0, 20.0, 15.0, 15.0, 12.0, 15.0, 15.0, 20.0, 15.0, 15.0, 12.0, 15.0)
    edge = traced(radii)
    assert (edge.length_mm, edge.width_mm) == pytest.approx((40, 24))


@pytest.mark.parametrize("hour", range(1, 13))
def test_half_way_between_two_hours_the_four_nearest_readings_count(hour: int) -> None:
    """Catmull and Rom 1974, half way: (-p0 + 9 p1 + 9 p2 - p3) / 16."""
    reading = {h: 20 + 0.1 * (h * h % 7) for h in range(1, 13)}
    edge = traced(tuple(reading[h] for h in range(1, 13))).radii
    p0, p1, p2, p3 = (reading[(hour + step - 1) % 12 + 1] for step in (-1, 0, 1, 2))
    half_an_hour = len(edge) // 24
    assert edge[(hour % 12) * 2 * half_an_hour + half_an_hour] == pytest.approx(
        (-p0 + 9 * p1 + 9 * p2 - p3) / 16
    )


def test_no_lone_reading_bends_the_edge_far_beyond_its_neighbours() -> None:
    """By hand, half way between two equal hours: beside one far out the curve would dip to
    8.75 of 10 mm, between two near ones it would rise to 33.1 of 30 mm; a tenth is allowed."""
    assert min(traced((30.0,) + (10.0,) * 11).radii) == pytest.approx(9)
    assert max(traced((30.0, 30.0) + (5.0,) * 10).radii) == pytest.approx(33)


def test_an_outline_needs_twelve_radii_or_both_axes() -> None:
    radii = (20.0,) * 12
    assert outline_of(Measurement(radii_mm=radii)) == traced(radii)
    assert outline_of(Measurement(length_mm=30.0, width_mm=24.0)) == ellipse(30.0, 24.0)
    assert outline_of(Measurement(radii_mm=radii, length_mm=30.0, width_mm=24.0)) == traced(radii)
    for known in (Measurement(), Measurement(length_mm=30.0), Measurement(width_mm=24.0)):
        assert outline_of(known) is None
