"""What a plane shows, followed along the lines of sight to a rounded skin."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planning.geometry.photo_marks import TooRounded
from planning.geometry.photo_shape import middle_of, sizes_of
from planning.geometry.photo_surface import Skin, on_skin, rounded_skins
from tests.factories.scene import Array, Belly, oval

EYE = np.array([20.0, -30.0, 300.0])
ORIGIN = np.zeros(2)


def on_plane(points: Array) -> Array:
    """Where the sights to these points cross the plane of the reference."""
    share = EYE[2] / (EYE[2] - points[:, 2])
    crossed: Array = EYE[:2] + (points[:, :2] - EYE[:2]) * share[:, None]
    return crossed


@pytest.mark.parametrize("along", [None, 0.0, 30.0, 90.0])
@pytest.mark.parametrize("level", [0.0, -10.0])
def test_a_stoma_on_a_rounded_belly_gets_its_true_size(along: float | None, level: float) -> None:
    """60 mm from where a ball or a cylinder with a radius of 250 mm touches the reference."""
    stoma = oval(40, 28, 60) + np.array([36.0, 48.0])
    seen = on_plane(Belly(250.0, along).of(stoma) + np.array([0.0, 0.0, level]))
    skin = Skin(level, 1 / 250, None if along is None else math.radians(along))
    got = sizes_of(on_skin(seen, middle_of(seen), EYE, ORIGIN, skin))
    assert (got.length, got.width) == pytest.approx((40, 28), abs=0.35)
    flat = sizes_of(seen)
    assert abs(flat.length - 40) + abs(flat.width - 28) > 0.8


def test_balls_and_cylinders_askew_of_the_way_are_tried_at_each_level() -> None:
    turn = math.pi / 4
    assert list(rounded_skins((1.0, 2.0), 0.01, 0.5)) == [
        Skin(level, 0.01, along) for level in (1.0, 2.0) for along in (None, 0.5 + turn, 0.5 - turn)
    ]


@pytest.mark.parametrize(("far", "serves"), [(88.0, True), (92.0, False), (140.0, False)])
def test_what_lies_behind_the_bend_is_not_measured(far: float, serves: bool) -> None:
    """Of a ball with a radius of 300 mm: seen at a flat angle (design value), and not at all."""
    points, eye = oval(6, 6) + np.array([far, 0.0]), np.array([-250.0, 0.0, 250.0])
    skin = Skin(0.0, 1 / 300)
    if serves:
        on_skin(points, middle_of(points), eye, ORIGIN, skin)
    else:
        with pytest.raises(TooRounded):
            on_skin(points, middle_of(points), eye, ORIGIN, skin)
