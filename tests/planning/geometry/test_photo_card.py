"""Which four marks are read as a card. ISO/IEC 7810 gives its size, 85.60 by 53.98 mm."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planning.geometry import photo_marks as wrong
from planning.geometry.photo_plane import Plane, card_plane


def card(*corners: tuple[float, float]) -> Plane:
    return card_plane(np.array(corners))


def flat(wide: float, high: float) -> Plane:
    """A card seen as a rectangle of so many pixels."""
    return card((0, 0), (wide, 0), (wide, high), (0, high))


@pytest.mark.parametrize(
    ("across", "down", "serves"),
    [(44.9, 0, True), (45.1, 0, False), (0, 44.9, True), (0, 45.1, False)],
)
def test_a_card_is_known_up_to_a_tilt_of_45_degrees(
    across: float, down: float, serves: bool
) -> None:
    """Design value. A tilt shortens the way across its axis by its cosine."""
    wide = 8 * 85.60 * math.cos(math.radians(across))
    high = 8 * 53.98 * math.cos(math.radians(down))
    if serves:
        flat(wide, high)
    else:
        with pytest.raises(wrong.TiltedTooFar):
            flat(wide, high)


@pytest.mark.parametrize("upright", [False, True])
def test_a_card_lying_either_way_gives_the_same_size(upright: bool) -> None:
    sides = 8 * 85.60, 8 * 53.98
    plane = flat(*(sides[::-1] if upright else sides))
    a, b = plane(np.array([(400.0, 700.0), (400.0 + 8 * 30, 700.0 + 8 * 40)]))
    assert math.dist(a, b) == pytest.approx(50)


def test_a_card_is_not_too_small_on_the_photo() -> None:
    """Design value: 60 pixels along its long side."""
    flat(60, 60 / 1.5858)
    with pytest.raises(wrong.ReferenceTooShort):
        flat(59.9, 59.9 / 1.5858)


@pytest.mark.parametrize(
    ("short", "error"), [(14.9, wrong.ReferenceTooShort), (15.1, wrong.TiltedTooFar)]
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
        card(*corners)
    else:
        with pytest.raises(wrong.CornersNotConvex):
            card(*corners)
