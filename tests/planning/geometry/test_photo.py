"""Sizes measured on synthetic photos against the true ones. ISO/IEC 7810 gives the card's size."""

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from planning.geometry import photo_marks as wrong
from planning.geometry.photo import (
    Askew,
    Card,
    Line,
    Mark,
    Marks,
    PhotoMeasurement,
    Rounded,
    Setting,
    measure,
)
from planning.geometry.photo_plane import card_plane, homography
from tests.factories.scene import SIZE, Array, Camera, card_at, line_at, oval

LOBES = (0.05, 0.0, 0.03)
#: Flat on flat skin, seen straight from above.
SETTING = Setting(SIZE, raised_mm=0.0, rounded=Rounded.FLAT, askew=Askew.STRAIGHT)


def marks_of(pixels: Array, wide: float = 1.0) -> tuple[Mark, ...]:
    return tuple(Mark(float(x), float(y), wide) for x, y in pixels)


def placed(
    reference: Line | Card,
    outline: tuple[Mark, ...],
    head: float = 0.0,
    setting: Setting = SETTING,
) -> Marks:
    return Marks(reference, outline, setting, head)


def by_card(camera: Camera, stoma: Array, card: Array, head: float = 0.0) -> PhotoMeasurement:
    a, b, c, d = marks_of(camera.pixels(card))
    return measure(Marks(Card((a, b, c, d)), marks_of(camera.pixels(stoma)), SETTING, head))


def by_line(
    camera: Camera, stoma: Array, line: Array, mm: float, head: float = 0.0
) -> PhotoMeasurement:
    start, end = marks_of(camera.pixels(line))
    return measure(Marks(Line(start, end, mm), marks_of(camera.pixels(stoma)), SETTING, head))


def head_of(camera: Camera) -> float:
    """Which way the plane's y runs in the picture, degrees clockwise from its top."""
    foot, tip = camera.pixels(np.array([(0.0, 0.0), (0.0, 1.0)]))
    return math.degrees(math.atan2(tip[0] - foot[0], foot[1] - tip[1]))


def calipers(shape: Array) -> tuple[float, float]:
    """Longest way across and the extent at right angles, from all pairs of points."""
    apart = shape[:, None] - shape[None, :]
    far = np.hypot(apart[..., 0], apart[..., 1])
    i, j = np.unravel_index(int(far.argmax()), far.shape)
    along = apart[i, j] / far[i, j]
    across = shape @ np.array([along[1], -along[0]])
    return float(far[i, j]), float(across.max() - across.min())


# --- exact marks ------------------------------------------------------------------------------
def test_the_edge_is_given_from_its_middle_and_the_figures_are_kept() -> None:
    camera = Camera(tilt=12, axis=35, turned=33)
    got = by_card(camera, oval(40, 28, 60), card_at(5, -62, 20), head_of(camera))
    middle = Polygon(got.edge_mm).centroid
    assert math.hypot(middle.x, middle.y) < 0.1
    kept = got.as_dict()
    # An ellipse of 40 by 28 mm, its long way 60 degrees from 12 o'clock.
    sizes = {"length_mm": 40, "width_mm": 28, "area_mm2": math.pi * 20 * 14}
    for key, true in sizes.items():
        assert kept[key][0] == pytest.approx(true, rel=0.01)
    sized = (kept["length_mm"], kept["width_mm"], kept["area_mm2"], *kept["radii_mm"])
    assert all(figure == round(figure, 3) for pair in sized for figure in pair)
    assert kept["axis_hour"] == 2
    assert kept["radii_mm"][1][0] == pytest.approx(20, abs=0.2)
    assert kept["radii_mm"][4][0] == pytest.approx(14, abs=0.2)


def test_the_drawn_edge_is_as_long_as_the_length_that_is_said() -> None:
    """A card nearer to the camera than the skin makes the stoma look small: both are put right."""
    camera = Camera(tilt=12, axis=35, turned=33)
    a, b, c, d = marks_of(camera.pixels(card_at(5, -62, 20)))
    edge = marks_of(camera.pixels(oval(40, 28, 60)))
    flat, raised = (
        measure(Marks(Card((a, b, c, d)), edge, replace(SETTING, raised_mm=mm), 0.0))
        for mm in (0.0, 4.0)
    )
    assert raised.length.value > flat.length.value + 0.2
    for got in (flat, raised):
        assert calipers(np.array(got.edge_mm))[0] == pytest.approx(got.length.value, rel=0.002)


@pytest.mark.parametrize("tilt", [0, 12, 25, 40])
@pytest.mark.parametrize("turned", [0, 33, 90, 200])
def test_card_takes_out_tilt_and_turn(tilt: float, turned: float) -> None:
    camera = Camera(tilt=tilt, axis=35, turned=turned)
    got = by_card(camera, oval(40, 28, 60), card_at(5, -62, 20), head_of(camera))
    assert got.length.value == pytest.approx(40, abs=0.1)
    assert got.width.value == pytest.approx(28, abs=0.1)
    assert got.area.value == pytest.approx(math.pi * 20 * 14, rel=0.002)
    assert got.axis_hour == 2
    assert got.axis_degrees == pytest.approx(60, abs=1)


@pytest.mark.parametrize("tilt", [0, 20, 40])
def test_irregular_edge_by_card_against_shapely(tilt: float) -> None:
    """Area by Shapely, lengths from all pairs of 2000 points of the true edge."""
    true = oval(36, 30, 40, lobes=LOBES, n=2000)
    camera = Camera(tilt=tilt, axis=100, turned=0)
    got = by_card(camera, oval(36, 30, 40, lobes=LOBES, n=40), card_at(0, 60), head_of(camera))
    assert (got.length.value, got.width.value) == pytest.approx(calipers(true), abs=0.1)
    assert got.area.value == pytest.approx(Polygon(true).area, rel=0.002)
    middle = Polygon(true).centroid
    for hour, radius in enumerate(got.radii, start=1):
        ray = (math.sin(math.radians(30 * hour)), math.cos(math.radians(30 * hour)))
        aside = (true - [middle.x, middle.y]) @ np.array([ray[1], -ray[0]])
        along = (true - [middle.x, middle.y]) @ np.array(ray)
        near = along > 0
        assert radius.value == pytest.approx(along[near][np.abs(aside[near]).argmin()], abs=0.1)


@pytest.mark.parametrize("turned", [0, 77, 181])
def test_ruler_straight_from_above(turned: float) -> None:
    camera = Camera(turned=turned)
    got = by_line(camera, oval(32, 26, 150), line_at(30, 10, 50, 80), 50, head=turned)
    assert got.length.value == pytest.approx(32, abs=0.1)
    assert got.width.value == pytest.approx(26, abs=0.1)
    assert got.axis_hour == 5


def test_radii_start_at_one_oclock_and_go_to_the_patients_left() -> None:
    """3 o'clock is the right of the picture when its top is the head."""
    shape = oval(30, 30, n=36) + np.array([0.0, 0.0])
    shape[8:11, 0] += 6  # bulges to the right: towards 3 o'clock
    got = by_line(Camera(), shape, line_at(0, 50, 50), 50)
    longest = max(range(12), key=lambda i: got.radii[i].value)
    assert longest + 1 == 3


def test_head_to_the_side_turns_the_hours() -> None:
    upright = by_line(Camera(), oval(40, 25, 0), line_at(0, 30, 80), 80)
    aside = by_line(Camera(), oval(40, 25, 0), line_at(0, 30, 80), 80, head=90)
    assert (upright.axis_hour, aside.axis_hour) == (6, 3)


def test_unless_marked_the_head_is_at_the_top_of_the_photo() -> None:
    camera = Camera()
    start, end = marks_of(camera.pixels(line_at(0, 30, 80)))
    marks = placed(Line(start, end, 80.0), marks_of(camera.pixels(oval(40, 25, 60))))
    assert measure(marks).axis_degrees == pytest.approx(60, abs=0.5)


def test_a_round_stoma_points_nowhere() -> None:
    assert by_card(Camera(), oval(30, 30), card_at(0, 60)).axis_hour is None


def test_an_oval_is_regular_and_a_lobed_edge_is_not() -> None:
    assert not by_card(Camera(), oval(40, 28), card_at(0, 60)).irregular
    lobed = oval(40, 34, lobes=(0.16,), n=40)
    assert by_card(Camera(far=250), lobed, card_at(0, 58)).irregular


# --- properties -------------------------------------------------------------------------------
@settings(max_examples=10)
@given(st.floats(0, 360), st.floats(1.0, 3.0))
def test_turning_or_enlarging_the_picture_changes_nothing(turn: float, scale: float) -> None:
    """About its middle, marked on a screen that shows as much of it."""
    camera = Camera(tilt=20, axis=10)
    plain = by_card(camera, oval(38, 30, 20), card_at(0, 60))
    t = math.radians(turn)
    turned = scale * np.array([[math.cos(t), -math.sin(t)], [math.sin(t), math.cos(t)]])
    picture = (round(1600 * scale), round(1200 * scale))

    def marked(shape: Array) -> tuple[Mark, ...]:
        away = camera.pixels(shape) - np.array(SIZE) / 2
        return marks_of(away @ turned.T + np.array(picture) / 2, scale)

    a, b, c, d = marked(card_at(0, 60))
    edge, setting = marked(oval(38, 30, 20)), replace(SETTING, picture=picture)
    got = measure(placed(Card((a, b, c, d)), edge, turn, setting))
    assert got.length.value == pytest.approx(plain.length.value, abs=0.02)
    assert got.width.value == pytest.approx(plain.width.value, abs=0.02)
    assert got.area.value == pytest.approx(plain.area.value, rel=1e-6)
    assert [r.value for r in got.radii] == pytest.approx([r.value for r in plain.radii], abs=0.01)


@settings(max_examples=6)
@given(st.permutations(range(4)))
def test_corners_may_come_in_any_order(order: Sequence[int]) -> None:
    plain = by_card(Camera(tilt=30, axis=70), oval(38, 30), card_at(0, 60))
    mixed = by_card(Camera(tilt=30, axis=70), oval(38, 30), card_at(0, 60)[list(order)])
    assert mixed.length.value == pytest.approx(plain.length.value)
    assert [r.value for r in mixed.radii] == pytest.approx([r.value for r in plain.radii])


def test_homography_recovers_a_known_map() -> None:
    true = np.array([[0.9, 0.2, 30.0], [-0.1, 1.1, 12.0], [1e-4, -2e-4, 1.0]])
    source = np.array([(10.0, 20.0), (900.0, 40.0), (850.0, 700.0), (30.0, 650.0), (400.0, 300.0)])
    lifted = np.column_stack([source, np.ones(5)]) @ true.T
    got = homography(source, lifted[:, :2] / lifted[:, 2:])
    assert got / got[2, 2] == pytest.approx(true, rel=1e-6)


# --- the stated error ----------------------------------------------------------------------------
def test_farther_marks_and_smaller_references_are_less_sure() -> None:
    camera, stoma = Camera(), oval(22, 20)
    near = by_line(camera, stoma, line_at(0, 20, 100), 100)
    assert by_line(camera, stoma, line_at(0, 20, 30), 30).length.error > near.length.error
    assert by_line(camera, stoma, line_at(0, 60, 100), 100).length.error > near.length.error
    start, end = marks_of(camera.pixels(line_at(0, 20, 100)), 3.0)
    coarse = placed(
        Line(start, end, 100),
        marks_of(camera.pixels(stoma), 3.0),
    )
    assert measure(coarse).length.error > near.length.error
    assert by_card(camera, stoma, card_at(0, 60)).length.error < near.length.error


def test_a_ruler_ever_farther_away_is_ever_less_sure_and_never_surer() -> None:
    """And in the end it is refused. About 8 pixels a mm."""
    edge, errors, refused = np.array([(m.x, m.y) for m in EDGE]), [], 0
    for away in (0, 20, 40, 80, 400, 3200):
        try:
            got = measure(placed(RULER, marks_of(edge + np.array((0.0, away)))))
        except (wrong.TooUnsure, wrong.TooRounded):
            refused += 1
        else:
            assert not refused
            errors.append(got.length.error)
    assert len(errors) >= 2
    assert refused >= 2
    assert all(later >= earlier for earlier, later in pairwise(errors))


def test_few_points_are_less_sure() -> None:
    few = by_card(Camera(), oval(40, 30, n=7), card_at(0, 60))
    many = by_card(Camera(), oval(40, 30, n=24), card_at(0, 60))
    assert few.length.error > many.length.error + 0.2
    assert abs(few.length.value - 40) < few.length.error


# --- what gives no measurement -----------------------------------------------------------------
EDGE = marks_of(Camera().pixels(oval(30, 26)))
RULER = Line(Mark(600, 460), Mark(1000, 460), 50.0)
SQUARE = ((100.0, 100.0), (900.0, 100.0), (900.0, 900.0), (100.0, 900.0))
DART = ((100.0, 100.0), (900.0, 100.0), (250.0, 200.0), (100.0, 600.0))


def card_of(corners: tuple[tuple[float, float], ...]) -> Card:
    a, b, c, d = (Mark(x, y) for x, y in corners)
    return Card((a, b, c, d))


@pytest.mark.parametrize(
    ("marks", "error"),
    [
        (placed(Line(Mark(100, 100), Mark(159, 100), 50.0), EDGE), wrong.ReferenceTooShort),
        (placed(Line(Mark(100, 100), Mark(500, 100), 9.9), EDGE), wrong.ReferenceOutOfRange),
        (placed(RULER, EDGE[:2]), wrong.TooFewPoints),
        (placed(RULER, EDGE * 4), wrong.TooManyPoints),
        (placed(RULER, (EDGE[0], EDGE[12], EDGE[6], EDGE[18])), wrong.CrossingOutline),
        (placed(card_of(SQUARE), EDGE), wrong.NoCard),
        (placed(card_of(DART), EDGE), wrong.CornersNotConvex),
        (placed(card_of((*SQUARE[:3], SQUARE[0])), EDGE), wrong.ReferenceTooShort),
    ],
)
def test_what_gives_no_measurement_says_why(marks: Marks, error: type[wrong.PhotoError]) -> None:
    with pytest.raises(error) as raised:
        measure(marks)
    assert raised.value.words
    assert raised.value.part in {"reference", "outline"}


@pytest.mark.parametrize(
    ("across_px", "mm", "serves"),
    [
        (60.0, 50.0, True),
        (59.9, 50.0, False),
        (400.0, 10.0, True),
        (400.0, 9.9, False),
        (400.0, 300.0, True),
        (400.0, 300.1, False),
    ],
)
def test_a_ruler_is_neither_too_small_on_the_photo_nor_out_of_range(
    across_px: float, mm: float, serves: bool
) -> None:
    """Design values: 60 pixels; 10 to 300 mm."""
    marks = placed(Line(Mark(100, 100), Mark(100 + across_px, 100), mm), EDGE)
    if serves:
        wrong.check_marks(marks)
    else:
        with pytest.raises((wrong.ReferenceTooShort, wrong.ReferenceOutOfRange)):
            wrong.check_marks(marks)


def test_at_most_ninety_marks_are_taken() -> None:
    """Design value."""
    wrong.check_marks(placed(RULER, EDGE[:1] * 90))
    with pytest.raises(wrong.TooManyPoints):
        wrong.check_marks(placed(RULER, EDGE[:1] * 91))


def test_an_edge_of_five_marks_may_be_off_by_a_quarter() -> None:
    """Half of so few marks gives no shape to compare with: a quarter of the size (design value)."""
    five = by_card(Camera(), oval(15, 14, n=5), card_at(0, 45)).length
    assert five.value / 4 < five.error < five.value / 2
    six = by_card(Camera(), oval(15, 14, n=6), card_at(0, 45)).length
    assert six.error < six.value / 4


def test_a_sickle_has_no_middle_inside() -> None:
    out = [(math.cos(t), math.sin(t)) for t in np.linspace(0.3, 5.98, 20)]
    sickle = [(300 * x, 300 * y) for x, y in out] + [(250 * x, 250 * y) for x, y in out[::-1]]
    marks = tuple(Mark(600 + x, 600 + y) for x, y in sickle)
    with pytest.raises(wrong.FoldedOutline):
        measure(placed(RULER, marks))


def test_beyond_the_cards_horizon() -> None:
    camera = Camera(tilt=40, axis=0, far=150, focal=1200)
    card = camera.pixels(card_at(0, 0))
    away = card.mean(axis=0) + np.array([0.0, 1300.0]) + oval(300, 200)  # the far side
    with pytest.raises(wrong.MarksTooFar):
        card_plane(card)(away)


@pytest.mark.parametrize(("share", "serves"), [(0.79, True), (0.81, False)])
def test_a_mark_keeps_off_the_cards_horizon(share: float, serves: bool) -> None:
    """Design value: up to four fifths of the way there. By hand: the horizon of a plane seen at
    40 degrees lies focal / tan(40) from the picture's middle."""
    camera = Camera(tilt=40, axis=0, far=150, focal=1200)
    card = camera.pixels(card_at(0, 0))
    middle = card.mean(axis=0)
    horizon = 600 + 1200 / math.tan(math.radians(40))
    mark = np.array([[middle[0], middle[1] + share * (horizon - middle[1])]])
    if serves:
        card_plane(card)(mark)
    else:
        with pytest.raises(wrong.MarksTooFar):
            card_plane(card)(mark)
