"""Corners found on photos painted with known ones: near enough, or not found."""

from __future__ import annotations

import math

import numpy as np
import pytest

from clinic.photo_reading.pixels import MOST_PIXELS, NotReadable, seen, unpacked
from clinic.plans.photo_proposals import CARD, NO_CARD, TWO_CARDS, UNREADABLE, propose
from tests.factories.rendered import Look, Picture, as_jpeg, rendered
from tests.factories.scene import Array, Camera, card_at, oval

#: Of the card's long side as seen; a shadow's rim beside a dark card is the worst of it.
NEAR_ENOUGH = 0.02
STRAIGHT = Camera(far=420, focal=1900)
TILTED = Camera(far=420, tilt=18, axis=40, turned=25, focal=1900)
STOMA = oval(40, 30, 20, n=200)


def painted(
    look: Look, camera: Camera = TILTED, place: float = 200.0, *, seed: int = 1, far: float = 52.0
) -> tuple[Picture, Array]:
    """A card at ``place`` degrees clockwise of 12 o'clock beside the stoma."""
    way = math.radians(place)
    card = camera.pixels(card_at(far * math.sin(way), far * math.cos(way), place))
    dice = np.random.default_rng(seed)
    return rendered(look, card, camera.pixels(STOMA), dice), card


def off(found: list[list[float]], true: Array) -> float:
    """Of the worst corner, as a share of the card's long side."""
    assert len(found) == 4
    at = np.array(found)[:, :2]
    away = [np.hypot(*(at - corner).T).min() for corner in true]
    return float(max(away) / np.hypot(*(true[1] - true[0])))


LOOKS = {
    "blue": Look(),
    "white, with a stripe, no shadow": Look(card=(240, 240, 238), shadow=0),
    "dark, soft": Look(card=(30, 30, 32), blur=1.8, stripe=False),
    "yellow, grainy": Look(card=(200, 160, 60), grain=8),
    "red as the stoma": Look(card=(150, 40, 45), stripe=False),
    "dark skin": Look(skin=(92, 62, 48), stoma=(140, 36, 44), card=(235, 235, 230)),
}


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
@pytest.mark.parametrize("camera", [STRAIGHT, TILTED], ids=["straight", "tilted"])
def test_corners_are_where_the_straight_edges_would_meet(look: Look, camera: Camera) -> None:
    """Not on the round corner: that lies 1.3 mm inside, 1.5 % of the long side."""
    picture, card = painted(look, camera)
    found = propose(as_jpeg(picture), CARD, None)
    assert found.words == ""
    assert off(found.points, card) < (0.004 if look.shadow < 1 else NEAR_ENOUGH)
    assert all(wide >= 1 for *_, wide in found.points)


def test_by_chance_it_is_near_enough_or_not_found() -> None:
    """Six photos of any colour, grain, blur and shadow; few are given up."""
    dice, given_up = np.random.default_rng(7), 0
    for number in range(6):
        look = Look(
            card=tuple(int(v) for v in dice.integers(20, 250, 3)),  # type: ignore[arg-type]
            blur=dice.uniform(0.6, 2.0),
            grain=dice.uniform(1, 8),
            shadow=dice.uniform(0, 3),
            stripe=bool(number % 2),
        )
        camera = Camera(
            far=dice.uniform(300, 480),
            tilt=dice.uniform(0, 25),
            axis=dice.uniform(0, 360),
            focal=dice.uniform(1500, 2200),
        )
        picture, card = painted(look, camera, dice.uniform(0, 360), seed=number)
        found = propose(as_jpeg(picture), CARD, None)
        if not found.points:
            assert found.words in {NO_CARD, TWO_CARDS}
            given_up += 1
            continue
        assert off(found.points, card) < NEAR_ENOUGH
    assert given_up <= 2


def test_an_unsure_side_makes_its_corners_unsure() -> None:
    """A shadow's rim runs along the card's: nothing shows which is which, so it may be either."""
    wides = []
    for shadow in (0.0, 1.0):
        picture, _ = painted(Look(card=(70, 40, 40), shadow=shadow, stripe=False))
        wides.append(propose(as_jpeg(picture), CARD, None).points[0][2])
    assert wides[1] > wides[0]


def test_without_a_card_none_is_found() -> None:
    dice = np.random.default_rng(1)
    picture = rendered(Look(), None, TILTED.pixels(STOMA), dice)
    assert propose(as_jpeg(picture), CARD, None) == propose(as_jpeg(picture), CARD, (1.0, 1.0))
    assert propose(as_jpeg(picture), CARD, None).words == NO_CARD
    plain = np.full((1200, 1600, 3), 180, np.uint8)
    assert propose(as_jpeg(plain), CARD, None).words == NO_CARD


def test_a_card_cut_off_by_the_picture_is_not_found() -> None:
    picture, card = painted(Look(), STRAIGHT, far=110.0)
    assert card[:, 1].max() > 1200
    assert propose(as_jpeg(picture), CARD, None).words == NO_CARD


def test_a_card_as_pale_as_the_skin_is_not_found() -> None:
    picture, _ = painted(Look(card=(216, 178, 155), shadow=0, stripe=False))
    assert propose(as_jpeg(picture), CARD, None).words == NO_CARD


def test_a_phone_is_at_most_proposed() -> None:
    """Longer than a card: seen straight, no card looks so. One in a card's proportion looks like a
    card on a picture, so it is proposed, and never measured unconfirmed."""
    long = Look(card=(25, 25, 28), size_mm=(147.0, 71.0), rounding=9.0, stripe=False)
    alike = Look(card=(25, 25, 28), size_mm=(110.0, 69.4), rounding=6.0, stripe=False)
    camera = Camera(far=480, focal=1500)

    def of(look: Look) -> Picture:
        w, h = (v / 2 for v in look.size_mm)
        corners = np.array([(-w, h - 60), (w, h - 60), (w, -h - 60), (-w, -h - 60)])
        return rendered(look, camera.pixels(corners), None, np.random.default_rng(3))

    assert propose(as_jpeg(of(long)), CARD, None).points == []
    assert len(propose(as_jpeg(of(alike)), CARD, None).points) == 4


def test_of_two_cards_none_is_chosen() -> None:
    both, _ = painted(Look(), STRAIGHT, 180.0)
    other, _ = painted(Look(), STRAIGHT, 0.0)
    high = both.shape[0] // 2
    picture = np.vstack([other[:high], both[high:]])
    assert propose(as_jpeg(picture), CARD, None).words == TWO_CARDS


def test_what_is_too_large_or_no_picture_is_not_looked_at() -> None:
    assert propose(b"no picture", CARD, None).words == UNREADABLE
    assert propose(b"", CARD, None).words == UNREADABLE
    with pytest.raises(NotReadable):
        seen(np.zeros((10, MOST_PIXELS // 10 + 1, 3), np.uint8))
    with pytest.raises(NotReadable):
        seen(np.zeros((99, 400, 3), np.uint8))
    assert unpacked(as_jpeg(np.zeros((120, 160, 3), np.uint8))).shape == (120, 160, 3)
