"""The stoma's edge on photos painted with a known one: near, or not found."""

from __future__ import annotations

from dataclasses import replace

import cv2
import numpy as np
import pytest
from shapely import LinearRing, Point

from clinic.plans.photo_proposals import EDGE, NO_EDGE, NO_EDGE_HERE, propose
from tests.factories.rendered import Look, Picture, as_jpeg, rendered
from tests.factories.scene import Array, Camera, card_at, oval

CAMERA = Camera(far=420, tilt=15, axis=70, focal=2200)
STOMA = CAMERA.pixels(oval(44, 34, 30, n=240))
CARD = CAMERA.pixels(card_at(0, -58))
PLAIN = Look(shine=False)


def painted(look: Look = PLAIN, edge: Array = STOMA, card: Array | None = CARD) -> Picture:
    return rendered(look, card, edge, np.random.default_rng(2))


def off(points: list[list[float]], edge: Array) -> float:
    """The worst point, as a share of how far across the stoma is."""
    ring = LinearRing(edge)
    return max(ring.distance(Point(p[:2])) for p in points) / float(np.ptp(edge[:, 0]))


LOOKS = {
    "light skin": PLAIN,
    "dark skin": replace(PLAIN, skin=(92, 62, 48), stoma=(150, 36, 44)),
    "soft and grainy": replace(PLAIN, blur=2.0, grain=7),
    "a red card beside it": replace(PLAIN, card=(170, 40, 45)),
}


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_the_edge_is_followed_all_the_way_round(look: Look) -> None:
    found = propose(as_jpeg(painted(look)), EDGE, None)
    assert found.words == ""
    assert len(found.points) == 20
    assert off(found.points, STOMA) < 0.01


def test_shine_on_it_is_bridged() -> None:
    found = propose(as_jpeg(painted(Look(shine=True))), EDGE, None)
    assert off(found.points, STOMA) < 0.03


def test_an_irregular_edge_is_followed_too() -> None:
    lobed = CAMERA.pixels(oval(44, 36, 30, lobes=(0.05,), n=240))
    assert off(propose(as_jpeg(painted(edge=lobed)), EDGE, None).points, lobed) < 0.015


def test_where_it_was_pressed_decides_between_two() -> None:
    """A loop's two openings, say."""
    both = np.array(painted())
    second = CAMERA.pixels(oval(38, 30, 0, n=240) + np.array([0.0, 62.0]))
    cv2.fillPoly(both, [np.round(second).astype(np.int32)], (52, 48, 178), cv2.LINE_AA)
    picture = as_jpeg(both)
    assert propose(picture, EDGE, None).words == NO_EDGE
    for edge in (STOMA, second):
        x, y = edge.mean(axis=0)
        found = propose(picture, EDGE, (float(x), float(y)))
        assert off(found.points, edge) < 0.015
    assert propose(picture, EDGE, (20.0, 20.0)).words == NO_EDGE_HERE
    assert propose(picture, EDGE, (9e9, 9e9)).words == NO_EDGE_HERE


def test_red_skin_that_fades_out_gives_no_edge() -> None:
    """Redness without a rim: any edge would be made up."""
    picture = np.array(painted(edge=STOMA, card=None)).astype(np.float32)
    y, x = np.mgrid[0 : picture.shape[0], 0 : picture.shape[1]]
    cx, cy = STOMA.mean(axis=0)
    far = np.hypot(x - cx, y - cy) / 260
    red = np.clip(1.2 - far, 0, 1)[..., None]
    fading = picture * (1 - red) + red * np.array([52, 48, 178], np.float32)
    assert propose(as_jpeg(fading.astype(np.uint8)), EDGE, None).words == NO_EDGE


def test_no_stoma_no_edge() -> None:
    bare = rendered(PLAIN, CARD, None, np.random.default_rng(2))
    assert propose(as_jpeg(bare), EDGE, None).words == NO_EDGE


def test_one_that_leaves_the_picture_is_not_given() -> None:
    beyond = STOMA - [760.0, 0.0]
    assert beyond[:, 0].min() < 0 < beyond[:, 0].max()
    assert propose(as_jpeg(painted(edge=beyond, card=None)), EDGE, None).words == NO_EDGE
