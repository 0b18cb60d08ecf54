"""Which four marks are read as a card. ISO/IEC 7810 gives its size, 85.60 by 53.98 mm."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planning.geometry import photo_marks as wrong
from planning.geometry.photo_card import CardRead, eye_of, read_card, shape_of
from planning.geometry.photo_marks import Card, Mark, Marks
from planning.geometry.photo_plane import card_plane, in_turn
from planning.geometry.photo_possible import Pixels, possible_by_card
from planning.geometry.photo_setting import Rounded, Setting
from planning.geometry.photo_view import tilted_views
from planning.inputs.usable_numbers import UnusableNumber
from tests.factories.scene import SIZE, Array, Camera, card_at, oval


def card(*corners: tuple[float, float]) -> CardRead:
    return read(np.array(corners) + 300.0)


def read(corners: Array, sd: float = 1.0) -> CardRead:
    return read_card(corners, np.full(4, sd), SIZE)


def flat(wide: float, high: float) -> CardRead:
    """A card seen as a rectangle of so many pixels."""
    return card((0, 0), (wide, 0), (wide, high), (0, high))


def seen(tilt: float, axis: float = 0.0, turned: float = 0.0, focal: float = 2000) -> Array:
    """The card's middle in the picture's, from 300 mm."""
    camera = Camera(far=300, tilt=tilt, axis=axis, turned=turned, focal=focal)
    return camera.pixels(card_at(0, 0))


@pytest.mark.parametrize(("tilt", "serves"), [(49.9, True), (50.1, False)])
@pytest.mark.parametrize("axis", [0.0, 40.0, 90.0])
def test_a_card_is_measured_up_to_a_tilt_of_50_degrees(
    tilt: float, axis: float, serves: bool
) -> None:
    """Design value. About any axis, exact marks, and a focal length half way between least and
    most as perspective grows (2, 7/6 and 1/3 over it), which is among those that are tried."""
    corners = seen(tilt, axis, focal=2000 * 6 / 7)
    if serves:
        assert read(corners).tilt_degrees == pytest.approx(tilt, abs=0.01)
        # Marked finely, no other fits.
        assert read(corners, sd=0.001).focals == pytest.approx((2000 * 6 / 7,))
    else:
        with pytest.raises(wrong.TiltedTooFar):
            read(corners)


@pytest.mark.parametrize(("tilt", "thought_of"), [(69.9, True), (70.1, False)])
def test_a_card_seen_from_beyond_70_degrees_is_not_thought_of(
    tilt: float, thought_of: bool
) -> None:
    """Design value. Marked so finely that no other focal length fits."""
    with pytest.raises(wrong.TiltedTooFar if thought_of else wrong.NoCard):
        read(seen(tilt, 40, focal=2000 * 6 / 7), sd=0.001)


@pytest.mark.parametrize("turned", [0.0, 90.0, 200.0])
def test_the_shape_of_a_card_is_its_right_angle_and_its_sides_proportion(turned: float) -> None:
    """By hand, seen flat, 3 pixels a mm: 120 degrees from the long side to the short one, of its
    true length, are a cosine of minus a half; twice that length takes ln 2 off. Seen askew a card
    is a card by the focal length it was seen with, and by no other."""
    wide, high = 3 * 85.60, 3 * 53.98 / 2
    for times in (1, 2):
        lean, down = times * high, times * high * math.sqrt(3)
        skew = np.array([(0, 0), (wide, 0), (wide + lean, down), (lean, down)])
        assert shape_of(skew, np.array([900.0, 5000.0])) == pytest.approx(
            np.array([[-0.5, -0.5], [-math.log(times)] * 2])
        )
    askew = seen(35, 40, turned) - np.array(SIZE) / 2
    true, other = shape_of(askew, np.array([2000.0, 1400.0])).T
    assert true == pytest.approx([0.0, 0.0], abs=1e-6)
    assert min(abs(other)) > 0.01


@pytest.mark.parametrize("tilt", [55.0, 60.0, 66.0])
def test_a_card_that_looks_turned_is_not_read_the_wrong_way_round(tilt: float) -> None:
    """About its short side, beyond 51 degrees its long side is seen the shorter one: the side
    ratio alone would take it for the other and measure on."""
    corners = seen(tilt, axis=90.0)
    sides = np.hypot(*(np.roll(corners, -1, axis=0) - corners).T)
    assert sides[0] + sides[2] < sides[1] + sides[3]
    with pytest.raises((wrong.TiltedTooFar, wrong.LongSideUnclear)):
        read(corners)


def test_a_card_without_perspective_may_lie_either_way() -> None:
    """Far away and marked coarsely, a square is as good a card the one way as the other."""
    with pytest.raises(wrong.LongSideUnclear):
        read(Camera(far=750, tilt=51, axis=90, focal=2000).pixels(card_at(0, 0)), sd=6.0)


@pytest.mark.parametrize("axis", [0.0, 90.0])
@pytest.mark.parametrize("turned", [0.0, 90.0, 200.0])
def test_the_cards_shape_tells_where_the_camera_stood(axis: float, turned: float) -> None:
    """At an angle the focal length is among those that fit, and gives the distance: 300 mm times
    the cosine, from the card's plane."""
    corners = read(seen(35, axis, turned)).corners
    focals = read(seen(35, axis, turned)).focals
    assert min(focals) <= 2100
    assert max(focals) >= 1900
    height = eye_of(corners, SIZE, 2000.0)[2]
    assert height == pytest.approx(300 * math.cos(math.radians(35)), rel=1e-3)
    assert max(focals) / min(focals) < max(read(seen(0)).focals) / min(read(seen(0)).focals)


def test_the_camera_may_have_looked_a_little_past_the_middle() -> None:
    """80 pixels of a picture of 1600, as where it was cut a little on one side."""
    assert read(seen(40, 40) + np.array([80.0, 0.0])).tilt_degrees == pytest.approx(40, abs=2)


def test_a_large_picture_marked_finely_is_read_too() -> None:
    """4000 by 3000 pixels, each corner within one of them."""
    camera = Camera(far=300, tilt=43, axis=30, focal=2900)
    corners = (camera.pixels(card_at(0, 0)) - np.array(SIZE) / 2) * 1.5 + np.array((2000.0, 1500.0))
    got = read_card(corners, np.full(4, 1.0), (4000, 3000))
    assert got.tilt_degrees == pytest.approx(43, abs=1.5)


@pytest.mark.parametrize("upright", [False, True])
def test_a_card_lying_either_way_gives_the_same_size(upright: bool) -> None:
    sides = 8 * 85.60, 8 * 53.98
    plane = card_plane(flat(*(sides[::-1] if upright else sides)).corners)
    a, b = plane(np.array([(400.0, 700.0), (400.0 + 8 * 30, 700.0 + 8 * 40)]))
    assert math.dist(a, b) == pytest.approx(50)


def test_a_card_is_not_too_small_on_the_photo() -> None:
    """Design values: seen by the widest lens, half the diagonal of 2000 pixels, from 800 mm, its
    long side has 107 pixels; and never less than 60 of a smaller picture."""
    flat(107.2, 107.2 / 1.5858)
    with pytest.raises(wrong.ReferenceTooShort):
        flat(106.8, 106.8 / 1.5858)
    small = np.array([(0.0, 0.0), (1.0, 0.0), (1.0, 0.6306), (0.0, 0.6306)])
    read_card(150 + 60 * small, np.full(4, 1.0), (400, 300))
    with pytest.raises(wrong.ReferenceTooShort):
        read_card(150 + 59.9 * small, np.full(4, 1.0), (400, 300))


@pytest.mark.parametrize(
    ("short", "error"), [(14.9, wrong.ReferenceTooShort), (15.0, wrong.NoCard)]
)
def test_two_corners_marked_almost_at_one_place_are_too_close(
    short: float, error: type[wrong.PhotoError]
) -> None:
    """Design value: a quarter of 60 pixels."""
    with pytest.raises(error):
        card((0, 0), (900, 0), (900, short), (0, 560))


@pytest.mark.parametrize(("out", "corner"), [(0.5, False), (2.0, True)])
def test_a_mark_on_the_line_between_two_others_is_no_corner(out: float, corner: bool) -> None:
    """Pixels by which the third mark lies off the line between its neighbours."""
    third = (450 + out * 0.555, 300 + out * 0.832)
    corners = (0, 0), (900, 0), third, (0, 600)
    if corner:
        in_turn(np.array(corners))
    else:
        with pytest.raises(wrong.CornersNotConvex):
            in_turn(np.array(corners))


@pytest.mark.parametrize(("out", "corner"), [(1.0, False), (1.01, True)])
def test_a_corner_turns_by_more_than_a_thousandth(out: float, corner: bool) -> None:
    """Design value: of the square of the longest side, 1000 pixels; by hand, 1000 times ``out``."""
    corners = np.array([(0, 0), (1000, 0), (1500, out), (700, 600)])
    if corner:
        in_turn(corners)
    else:
        with pytest.raises(wrong.CornersNotConvex):
            in_turn(corners)


def test_the_nearest_and_the_farthest_camera_that_fit_a_card_are_tried() -> None:
    """Of three focal lengths the one between adds nothing; one alone is tried alone, with the card
    as high and as low as it may lie."""
    camera = Camera(far=300, tilt=35, axis=40, focal=2000)
    corners = camera.pixels(card_at(0, -60))
    pixels = Pixels.of(camera.pixels(oval(40, 30)), 0.0)
    card = Card(tuple(Mark(float(x), float(y)) for x, y in corners))  # type: ignore[arg-type]
    marks = Marks(card, (), Setting(SIZE, raised_mm=0.0, rounded=Rounded.FLAT))

    def levels(*focals: float) -> Array:
        found = possible_by_card(marks, CardRead(corners, (0, 1, 2, 3), focals, 35.0), pixels)
        return found.level[np.lexsort(found.level.T)]

    assert levels(2000.0).shape == (2, 16)
    assert levels(1800.0, 1900.0, 2200.0) == pytest.approx(levels(1800.0, 2200.0))


def test_a_plane_is_not_seen_along_itself() -> None:
    middle = np.array(SIZE) / 2
    assert list(tilted_views(middle, SIZE, 2000.0, 89.0))
    with pytest.raises(UnusableNumber):
        list(tilted_views(middle, SIZE, 2000.0, 90.0))
