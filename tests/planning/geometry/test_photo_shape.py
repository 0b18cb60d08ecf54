"""Sizes of an edge worked out by hand: a right triangle, and shapes with bays."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planning.geometry.photo_marks import CrossingOutline, FoldedOutline
from planning.geometry.photo_plane import Array
from planning.geometry.photo_shape import check_edge, middle_of, sizes_of, smooth

#: Sides of 30, 40 and 50 mm.
TRIANGLE = np.array([(0.0, 0.0), (30.0, 0.0), (0.0, 40.0)])


@pytest.mark.parametrize("away", [0.0, 100.0, -3000.0])
@pytest.mark.parametrize("turned", [False, True])
def test_the_sizes_of_a_right_triangle(away: float, turned: bool) -> None:
    """Length 50 from corner to corner, towards 143.13 degrees; width 24, the height on it; the
    middle a third of the way up each side. Where a ray meets 40 x + 30 y = 1200."""
    edge = TRIANGLE + away
    sizes = sizes_of(edge[::-1] if turned else edge)
    assert sizes.length == pytest.approx(50, abs=0.001)
    assert sizes.width == pytest.approx(24, abs=0.15)
    assert sizes.area == pytest.approx(600)
    assert sizes.bearing == 143
    middle = middle_of(edge) - away
    assert middle == pytest.approx([10, 40 / 3])
    one, two, three, six, nine, twelve = (sizes.radii[hour - 1] for hour in (1, 2, 3, 6, 9, 12))
    assert (one, two) == pytest.approx((400 / (20 + 25.981), 400 / (34.641 + 15)), abs=0.001)
    assert (three, six, nine, twelve) == pytest.approx((10, 40 / 3, 10, 40 / 3))


def test_what_is_moved_by_chance_holds_length_width_area_their_difference_and_radii() -> None:
    sizes = sizes_of(TRIANGLE)
    assert list(sizes.vector) == [
        *(sizes.length, sizes.width, sizes.area),
        sizes.length - sizes.width,
        *sizes.radii,
    ]


def test_across_a_bay_the_farthest_edge_counts() -> None:
    """A block of 40 by 40 mm with a slit from its right side, off the middle: 3 o'clock crosses
    no slit, 2 o'clock does."""
    slit = [(-20, -20), (20, -20), (20, 6), (8, 6), (8, 7), (20, 7), (20, 20), (-20, 20)]
    edge = np.array(slit, dtype=float)
    dx, dy = middle_of(edge)
    sizes = sizes_of(edge)
    assert sizes.radii[2] == pytest.approx(20 - dx)
    assert sizes.radii[1] == pytest.approx((20 - dx) / math.sin(math.radians(60)))
    assert dy < 0


def test_the_edge_passes_through_every_mark_and_bends_between_them() -> None:
    """Catmull and Rom 1974, half way: (-p0 + 9 p1 + 9 p2 - p3) / 16."""
    marks = np.array([(0.0, 0.0), (9.0, 1.0), (12.0, 10.0), (3.0, 14.0), (-4.0, 6.0)])
    edge = smooth(marks)
    steps = len(edge) // len(marks)
    assert edge[::steps] == pytest.approx(marks)
    p0, p1, p2, p3 = (np.roll(marks, n, axis=0) for n in (1, 0, -1, -2))
    assert edge[steps // 2 :: steps] == pytest.approx((-p0 + 9 * p1 + 9 * p2 - p3) / 16)


@pytest.mark.parametrize(
    ("edge", "error"),
    [
        ([(0, 0), (10, 10), (10, 0), (0, 10)], CrossingOutline),
        ([(0, 0), (10, 0), (20, 0)], CrossingOutline),
        ([(0, 0), (30, 0), (30, 30), (0, 30), (0, 28), (28, 28), (28, 2), (0, 2)], FoldedOutline),
    ],
)
def test_an_edge_that_crosses_itself_or_leaves_out_its_middle(
    edge: Array, error: type[Exception]
) -> None:
    with pytest.raises(error):
        check_edge(np.array(edge, dtype=float))
    check_edge(TRIANGLE)
