"""What the stated error of a size from a photo is made of."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from planning.geometry.photo import Card, Line, Mark, Marks
from planning.geometry.photo_error import Budget, budget_of
from planning.geometry.photo_plane import Array

EDGE = tuple(Mark(800.0 + 7 * n, 600.0 + 5 * n) for n in range(24))
RULER = Line(Mark(100, 100), Mark(500, 100), 50.0)
CARD = Card((Mark(0, 0), Mark(900, 0), Mark(900, 560), Mark(0, 560)))
SIZES = np.array([40.0, 30.0, 1000.0, 10.0, *[18.0] * 12])


def budget(reference: Card | Line, apart_mm: float = 0.0) -> Budget:
    """Of marks without chance: whatever is marked, 40 by 30 mm and 1000 mm² come out."""
    marks = Marks(reference, EDGE)
    pixels = [np.array([(m.x, m.y) for m in part]) for part in (reference.marks, EDGE)]
    return budget_of(marks, lambda *_: SIZES, pixels[0], pixels[1], apart_mm)


def by_measuring(more: Callable[[Array, Array, float], float]) -> Budget:
    """Of a ruler and an edge whose every size is ``more`` mm or mm² larger than ``SIZES``."""
    ruler, edge = (np.array([(m.x, m.y) for m in part]) for part in (RULER.marks, EDGE))
    return budget_of(Marks(RULER, EDGE), lambda r, o, h: SIZES + more(r, o, h), ruler, edge, 0.0)


def test_a_length_and_an_area_err_by_what_may_be_off() -> None:
    """By hand, from the design values: half a millimetre of a 50 mm rule, 1 %; 3 mm of level at
    300 mm, 1 %; a tilt of 10 degrees, 1 / cos less 1, 1.543 %. An area errs twice by what makes
    everything larger, once by the tilt."""
    rule = budget(RULER)
    assert rule.reference_mm == pytest.approx(0.4)
    assert rule.errors[0] == pytest.approx(40 * (0.01 + 0.01 + 0.015427), rel=1e-4)
    assert rule.errors[2] == pytest.approx(1000 * (2 * (0.01 + 0.01) + 0.015427), rel=1e-4)


def test_a_tilt_alone_makes_a_round_stoma_look_oval() -> None:
    """By hand: a tilt of 10 degrees may take 1.543 % from one way of 40 mm; the 10 mm by which
    length and width differ err as a length does."""
    assert budget(RULER).errors[3] == pytest.approx(40 * 0.015427 + 10 * 0.035427, rel=1e-4)


def test_a_rule_beside_the_stoma_errs_by_how_much_nearer_it_lies() -> None:
    """By hand: 60 mm aside at 10 degrees is 10.42 mm nearer: 10.42 / (300 - 10.42), 3.598 %."""
    aside, beneath = budget(RULER, 60.0), budget(RULER)
    assert aside.errors[0] - beneath.errors[0] == pytest.approx(40 * 0.03598, rel=1e-3)
    assert aside.errors[2] - beneath.errors[2] == pytest.approx(2 * 1000 * 0.03598, rel=1e-3)
    assert aside.tilt_mm == pytest.approx(40 * (0.015427 + 0.03598), rel=1e-3)


def test_a_rule_far_aside_is_counted_as_half_way_to_the_camera() -> None:
    """2 m aside a tilted plane would reach behind the camera; half way, things look twice as
    large."""
    assert budget(RULER, 2000.0).errors[0] - budget(RULER).errors[0] == pytest.approx(40)


def test_a_card_takes_out_the_tilt_and_is_read_on_its_short_side() -> None:
    """By hand: 0.2 of 53.98 mm, 0.3705 %, and 1 % of level."""
    card = budget(CARD, 60.0)
    assert card.errors[0] == pytest.approx(40 * (0.2 / 53.98 + 0.01), rel=1e-6)


def test_the_head_is_known_to_ten_degrees_either_way() -> None:
    """Of a size that grows by 1 mm a degree: 5 degrees of standard deviation, taken twice."""
    assert by_measuring(lambda _r, _o, head: head).marks_mm == pytest.approx(10)


@pytest.mark.parametrize("axis", [0, 1])
def test_every_mark_is_off_across_and_down_by_its_own_error(axis: int) -> None:
    """Sizes that grow by 1 mm a pixel of one mark: 1.5 pixels of standard deviation, twice."""
    ruler = by_measuring(lambda ruler, _o, _h: ruler[1, axis])
    edge = by_measuring(lambda _r, edge, _h: edge[-1, axis])
    assert (ruler.marks_mm, edge.marks_mm) == pytest.approx((3, 3))


@pytest.mark.parametrize("first", [0, 1])
def test_between_the_marks_the_edge_is_off_by_a_third_of_what_half_of_them_would_be(
    first: int,
) -> None:
    """Design value: 3 mm more where every other mark is left out, whichever half that is."""

    def measuring(_ruler: Array, edge: Array, _head: float) -> float:
        half = len(edge) == len(EDGE) // 2
        return 3.0 if half and edge[0, 0] == EDGE[first].x else 0.0

    assert by_measuring(measuring).between_mm == pytest.approx(1)


def test_a_mark_is_off_by_pixels_of_the_screen_and_at_least_one_of_the_picture() -> None:
    assert [Mark(0, 0).sd, Mark(0, 0, 2.0).sd, Mark(0, 0, 0.1).sd] == [1.5, 3.0, 1.0]
