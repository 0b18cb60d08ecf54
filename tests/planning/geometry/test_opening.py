"""Openings against the Steiner formula, Shapely and the table of ready-cut sizes."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon

from planning.geometry.opening import opening_for
from planning.geometry.outline import ellipse, traced
from planning.geometry.precut import MM_PER_INCH, STEPS_INCH, inches, pre_cut_for


@pytest.mark.parametrize(
    ("a", "b", "gap", "area"),
    [
        (15, 15, 2, 907.9203),
        (15, 10, 2, 642.4597),
        (20, 12.5, 3, 1124.0696),
        (20, 15, 1.5, 1115.3226),
    ],
)
def test_steiner_formula(a: float, b: float, gap: float, area: float) -> None:
    """A' = A + P d + pi d2, exact for convex shapes; areas worked out apart from our code."""
    edge = ellipse(2 * a, 2 * b)
    assert Polygon(opening_for(edge, gap).points).area == pytest.approx(area, rel=0.001)
    steiner = edge.area_mm2 + edge.perimeter_mm * gap + math.pi * gap**2
    assert steiner == pytest.approx(area, abs=0.001)


@pytest.mark.parametrize(
    ("stoma", "gap", "opening"),
    [(25, 1.6, 28.2), (25, 2, 29), (32, 3.175, 38.35), (38, 2, 42), (45, 3.175, 51.35)],
)
def test_opening_diameter_table(stoma: float, gap: float, opening: float) -> None:
    """By hand: opening = stoma + 2 x gap."""
    assert opening_for(ellipse(stoma, stoma), gap).length_mm == pytest.approx(opening)


def test_both_axes_get_the_gap() -> None:
    """By hand: 30 x 35 mm gives 34 x 39 mm."""
    opening = opening_for(ellipse(35, 30), 2.0)
    assert (opening.length_mm, opening.width_mm) == (39.0, 34.0)


@given(
    st.lists(st.floats(8, 40), min_size=12, max_size=12),
    st.floats(1.6, 3.175),
    st.none() | st.floats(10, 120),
)
def test_an_opening_holds_the_whole_stoma(
    radii: list[float], gap: float, widest: float | None
) -> None:
    edge = traced(tuple(radii))
    opening = Polygon(opening_for(edge, gap, widest).points)
    assert opening.buffer(0.02).contains(Polygon(edge.points))


def test_an_opening_is_kept_to_a_hundredth_of_a_millimetre() -> None:
    points = opening_for(ellipse(37, 29, 30), 2.0).points
    assert points == tuple((round(x, 2), round(y, 2)) for x, y in points)


def test_an_opening_lets_the_widest_part_pass() -> None:
    opening = opening_for(ellipse(30, 28), 2.0, widest_mm=45)
    assert opening.length_mm == opening.width_mm == 49
    xs = [x for x, _ in opening.points]
    assert max(xs) - min(xs) == pytest.approx(49, abs=0.05)
    # A round part of 45 mm and 2 mm beside it, about the middle; drawn as finely as an edge.
    assert len(opening.points) == len(ellipse(30, 28).points)
    assert min(math.hypot(x, y) for x, y in opening.points) >= 24.48


def test_an_opening_is_closed_without_a_step_and_no_point_comes_twice() -> None:
    points = opening_for(ellipse(30, 28), 2.0, widest_mm=45).points
    steps = [math.dist(a, b) for a, b in zip(points, (*points[1:], points[0]), strict=True)]
    assert 0 < max(steps) < 1.1 * min(steps)


@pytest.mark.parametrize(
    ("stoma", "size"), [(25, 28.575), (30, 34.925), (32, 38.1), (36, 41.275), (42, None)]
)
def test_ready_cut_sizes(stoma: float, size: float | None) -> None:
    """By hand, in exact inches: 1 1/8, 1 3/8, 1 1/2, 1 5/8; for 42 mm no step lies in the gap."""
    assert pre_cut_for(stoma) == (None if size is None else pytest.approx(size))


@pytest.mark.parametrize("step", STEPS_INCH)
def test_a_stoma_exactly_one_sixteenth_smaller_a_side_fits(step: object) -> None:
    size = float(step * 25.4)  # type: ignore[operator]
    assert pre_cut_for(size - 2 * 1.5875) == pytest.approx(size)


def test_the_usual_ready_cut_steps_are_these() -> None:
    """Written out: eighths of an inch from 5/8 to 1 3/4, then 2."""
    assert " ".join(inches(float(step * MM_PER_INCH)) for step in STEPS_INCH) == (
        "5/8 in 3/4 in 7/8 in 1 in 1 1/8 in 1 1/4 in 1 3/8 in 1 1/2 in 1 5/8 in 1 3/4 in 2 in"
    )


@pytest.mark.parametrize(
    ("stoma", "size"),
    [
        (9.525, 15.875),
        (9.5, None),
        (41.275, 44.45),
        (41.3, None),
        (44.4, None),
        (44.45, 50.8),
        (47.625, 50.8),
        (47.7, None),
    ],
)
def test_a_ready_cut_opening_is_neither_too_tight_nor_too_wide(
    stoma: float, size: float | None
) -> None:
    """By hand, where the next step is far: a size serves from 6.35 mm (1/8 inch a side) to
    3.175 mm (1/16 a side) below it. 15.875: from 9.525; 44.45: to 41.275; 50.8: 44.45 to 47.625."""
    assert pre_cut_for(stoma) == (None if size is None else pytest.approx(size))


def test_sizes_in_inches() -> None:
    assert [inches(mm) for mm in (15.875, 28.575, 50.8)] == ["5/8 in", "1 1/8 in", "2 in"]
    # 0.035 of an inch lies nearer to a sixteenth than to none.
    assert inches(0.9) == "1/16 in"


def test_a_plateau_holds_a_lopsided_opening() -> None:
    """Further out at one hour than half the length or width: the circle about the middle grows."""
    radii = [15.0] * 12
    radii[1] = 21.0
    opening = opening_for(traced(tuple(radii)), 2)
    reach = max(math.hypot(x, y) for x, y in opening.points)
    assert reach > max(opening.length_mm, opening.width_mm) / 2 + 1
    assert opening.across_mm == pytest.approx(2 * reach, abs=0.05)


@given(st.floats(10, 60), st.floats(10, 60), st.floats(1, 3))
def test_a_plateau_of_an_oval_is_its_longer_way(length: float, width: float, gap: float) -> None:
    opening = opening_for(ellipse(length, width), gap)
    assert opening.across_mm == max(opening.length_mm, opening.width_mm)
