"""Which four marks are read as a card. ISO/IEC 7810 gives its size, 85.60 by 53.98 mm."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planning.geometry import photo_marks as wrong
from planning.geometry.photo_card import CardRead, eye_of, read_card
from planning.geometry.photo_plane import card_plane, in_turn
from tests.factories.scene import SIZE, Array, Camera, card_at


def card(*corners: tuple[float, float]) -> CardRead:
    return read(np.array(corners) + 300.0)


def read(corners: Array, sd: float = 1.0) -> CardRead:
    return read_card(corners, np.full(4, sd), SIZE)


def flat(wide: float, high: float) -> CardRead:
    """A card seen as a rectangle of so many pixels."""
    return card((0, 0), (wide, 0), (wide, high), (0, high))


def seen(tilt: float, axis: float = 0.0, turned: float = 0.0) -> Array:
    """The card's middle in the picture's, from 300 mm."""
    return Camera(far=300, tilt=tilt, axis=axis, turned=turned, focal=2000).pixels(card_at(0, 0))


@pytest.mark.parametrize(("tilt", "serves"), [(48.0, True), (52.0, False)])
@pytest.mark.parametrize("axis", [0.0, 40.0, 90.0])
def test_a_card_is_measured_up_to_a_tilt_of_50_degrees(
    tilt: float, axis: float, serves: bool
) -> None:
    """Design value. About any axis, exact marks."""
    if serves:
        assert read(seen(tilt, axis)).tilt_degrees == pytest.approx(tilt, abs=1.5)
    else:
        with pytest.raises(wrong.TiltedTooFar):
            read(seen(tilt, axis))


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
    ("short", "error"), [(14.9, wrong.ReferenceTooShort), (15.1, wrong.NoCard)]
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
