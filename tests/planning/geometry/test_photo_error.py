"""What the stated error of a size from a photo is made of."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from planning.geometry import photo_marks as wrong
from planning.geometry.photo import (
    Askew,
    Card,
    Line,
    Mark,
    Marks,
    Rounded,
    Setting,
    Sized,
    measure,
)
from planning.geometry.photo_agreement import contradicts
from planning.geometry.photo_error import Budget, budget_of, check_error
from planning.geometry.photo_plane import Array
from planning.geometry.photo_possible import Pixels, Possible, possible_by_line
from tests.factories.scene import SIZE, Camera, card_at, line_at, oval

EDGE = tuple(Mark(800.0 + 7 * n, 600.0 + 5 * n) for n in range(24))
RULER = Line(Mark(100, 100), Mark(500, 100), 50.0)
CARD = Card((Mark(0, 0), Mark(900, 0), Mark(900, 560), Mark(0, 560)))
SIZES = np.array([40.0, 30.0, 1000.0, 10.0, *[18.0] * 12])
ROWS = SIZES[None, :]
SETTING = Setting(SIZE, raised_mm=0.0, rounded=Rounded.FLAT, askew=Askew.STRAIGHT)


def budget(reference: Card | Line, possible: Possible | None = None) -> Budget:
    """Of marks without chance: whatever is marked, 40 by 30 mm and 1000 mm² come out."""
    marks = Marks(reference, EDGE, SETTING)
    pixels = [np.array([(m.x, m.y) for m in part]) for part in (reference.marks, EDGE)]
    sure = possible or Possible(ROWS, ROWS, ROWS)
    return budget_of(marks, lambda *_: SIZES, pixels[0], pixels[1], sure)


def by_measuring(more: Callable[[Array, Array, float], float]) -> Budget:
    """Of a ruler and an edge whose every size is ``more`` mm or mm² larger than ``SIZES``."""
    ruler, edge = (np.array([(m.x, m.y) for m in part]) for part in (RULER.marks, EDGE))
    return budget_of(
        Marks(RULER, EDGE, SETTING),
        lambda r, o, h: SIZES + more(r, o, h),
        ruler,
        edge,
        Possible(ROWS, ROWS, ROWS),
    )


def test_a_reference_may_be_read_wrong_and_an_area_errs_twice_by_it() -> None:
    """By hand, from the design values: half a millimetre of a 50 mm rule, 1 %; 0.2 of the card's
    53.98 mm, 0.3705 %."""
    rule, card = budget(RULER), budget(CARD)
    assert rule.reference_mm == pytest.approx(0.4)
    assert (rule.errors[0], rule.errors[2]) == pytest.approx((0.4, 20.0))
    assert card.errors[0] == pytest.approx(40 * 0.2 / 53.98)


def test_the_head_is_at_the_top_of_a_photo_unless_it_is_said_otherwise() -> None:
    assert Marks(RULER, EDGE, SETTING) == Marks(RULER, EDGE, SETTING, head_degrees=0.0)


def test_a_ruler_contradicts_a_photo_beyond_both_their_errors() -> None:
    """By hand: 30 mm within 1.5, and half a millimetre of reading, reach from 28 to 32."""
    photo = Sized(30.0, 1.5)
    assert [contradicts(photo, mm) for mm in (27.9, 28.0, 32.0, 32.1)] == [True, False, False, True]
    # Level with the skin, and on the photo nearly so.
    assert not contradicts(Sized(0.25, 0.0), 0.0)
    assert contradicts(Sized(0.75, 0.0), 0.0)


def test_the_error_reaches_to_the_farthest_that_is_possible() -> None:
    """The size is half way between the reference low and high, 41 mm; the skin may make 45 of it:
    4 mm, of which 1 is the level's, 2 the tilt's and 1 the belly's."""
    low, high, askew, bent = (ROWS * (mm / 40) for mm in (40.0, 42.0, 38.0, 45.0))
    level = np.vstack([low, high])
    tilt = np.vstack([level, askew])
    got = budget(RULER, Possible(level, tilt, np.vstack([tilt, bent])))
    assert got.values[0] == pytest.approx(41)
    assert (got.level_mm, got.tilt_mm, got.bend_mm) == pytest.approx((1, 2, 1))
    assert got.errors[0] == pytest.approx(4 + 0.41)


def shares(marks: Marks) -> Budget:
    return measure(marks).budget


def by_card(setting: Setting, height: float = 0.0) -> Budget:
    """A stoma of 40 by 30 mm and a card beside it, from 400 mm straight above."""
    placed = [
        tuple(Mark(float(x), float(y), 0.5) for x, y in Camera().pixels(shape, level))
        for shape, level in ((card_at(0, 58), height), (oval(40, 30), 0.0))
    ]
    a, b, c, d = placed[0]
    return shares(Marks(Card((a, b, c, d)), placed[1], setting))


def test_a_card_off_the_skin_is_measured_by_its_height() -> None:
    """By hand: 20 mm nearer than the skin at 400 mm, what is measured is 5 % small, and put
    right once the height is given."""
    raised = by_card(replace(SETTING, raised_mm=20.0), 20.0)
    assert raised.values[0] == pytest.approx(40, abs=0.6)
    flat = by_card(SETTING, 20.0)
    assert flat.values[0] == pytest.approx(38, abs=0.1)


def test_what_is_not_known_is_inside_the_error() -> None:
    """A height not known: -3 to 20 mm off, the camera no nearer than 250 mm: at most 11.5 / 250 of
    the size either way, and half way 8.5 mm off."""
    flat, unknown = by_card(SETTING), by_card(replace(SETTING, raised_mm=None))
    assert flat.level_mm == pytest.approx(40 * 3 / 250, rel=0.3)
    assert 3 * flat.level_mm < unknown.level_mm < 40 * 20 / 250
    assert abs(unknown.values[0] - 40) < unknown.level_mm
    rounded = by_card(replace(SETTING, rounded=Rounded.GENTLY))
    assert rounded.bend_mm > 2 * flat.bend_mm > 0
    assert rounded.errors[0] > flat.errors[0]


def by_ruler(askew: Askew | None, apart: float = 14.0) -> Budget:
    """A stoma of 16 by 14 mm and a ruler beside it, from 400 mm straight above."""
    ends, edge = (
        tuple(Mark(float(x), float(y), 0.5) for x, y in Camera().pixels(shape))
        for shape in (line_at(0, apart, 100), oval(16, 14))
    )
    return shares(Marks(Line(ends[0], ends[1], 100.0), edge, replace(SETTING, askew=askew)))


def test_a_ruler_errs_by_how_askew_the_camera_may_have_looked() -> None:
    """By hand: 15 degrees shorten one way by 1 - cos, 3.4 %, or lengthen it by 1 / cos - 1, 3.5 %;
    what lies 14 mm aside is nearer by up to 3.6 mm of 250. 30 degrees: 15.5 %, and 7 mm of 250."""
    straight, somewhat = by_ruler(Askew.STRAIGHT), by_ruler(Askew.SOMEWHAT)
    assert 16 * 0.034 < straight.tilt_mm < 16 * (0.0353 + 0.018)
    assert 16 * 0.134 < somewhat.tilt_mm < 16 * (0.155 + 0.045)
    assert by_ruler(Askew.STRAIGHT, 40.0).tilt_mm > straight.tilt_mm
    # mm²: of the ellipse.
    assert straight.values[2] == pytest.approx(math.pi * 8 * 7, rel=0.01)


@pytest.mark.parametrize("askew", [None, Askew.STRONGLY])
def test_a_ruler_is_refused_where_the_camera_was_strongly_askew(askew: Askew | None) -> None:
    with pytest.raises(wrong.AskewUnknown):
        by_ruler(askew)


@pytest.mark.parametrize("height", [-0.1, 20.1, math.nan])
def test_a_height_is_within_what_is_asked_for(height: float) -> None:
    with pytest.raises(wrong.RaisedOutOfRange):
        by_card(replace(SETTING, raised_mm=height))


@pytest.mark.parametrize(
    ("share", "part"),
    [("level", "raised"), ("tilt", "askew"), ("bend", "rounded"), ("marks", "outline")],
)
def test_a_size_that_may_be_too_far_off_is_refused_beside_what_widens_it(
    share: str, part: str
) -> None:
    """Design value: 5 mm."""
    of = dict.fromkeys(("between", "reference", "marks", "level", "tilt", "bend"), 0.0)
    of[share] = 4.0
    made = Budget((40.0, 30.0), (5.0, 4.0), **{f"{name}_mm": mm for name, mm in of.items()})
    check_error(made)
    with pytest.raises(wrong.TooUnsure, match=r"off by 6 mm.*limit 5 mm") as refused:
        check_error(replace(made, errors=(4.0, 5.1)))
    assert refused.value.part == part


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


def test_what_is_possible_by_a_ruler_does_not_depend_on_how_the_picture_was_turned() -> None:
    """A quarter turn about its middle, on a belly that bends strongly."""
    camera, middle = Camera(far=300, focal=2000), np.array(SIZE) / 2
    ends, edge = camera.pixels(line_at(-10, -30, 60, 20)), camera.pixels(oval(36, 28, 30))
    setting = replace(SETTING, rounded=Rounded.STRONGLY)

    def reach(ends: Array, edge: Array, head: float) -> Array:
        ruler = Line(Mark(*ends[0]), Mark(*ends[1]), 60.0)
        marks = Marks(ruler, (), setting, head)
        bend = possible_by_line(marks, ruler, ends, Pixels.of(edge, head)).bend
        return np.array([bend.min(axis=0), bend.max(axis=0)])

    turn = np.array([[0.0, 1.0], [-1.0, 0.0]])
    turned_ends, turned_edge = ((part - middle) @ turn + middle for part in (ends, edge))
    assert reach(turned_ends, turned_edge, 90.0) == pytest.approx(reach(ends, edge, 0.0), rel=1e-9)
