"""The drawn face: its geometry against shapely and the circle's own formulas, and its words."""

import math
import re
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.affinity import rotate
from shapely.geometry import Point, Polygon

from clinic.visits.choices import SkinKind
from clinic.visits.models import SkinFinding
from clinic.visits.presenters import face_geometry as geometry
from clinic.visits.presenters.clockface import face_of, skin_patch
from planning.inputs.clock import ClockHours
from tests.factories.visits import AssessmentFactory

hour_sets = st.sets(st.integers(1, 12), min_size=1).map(lambda hours: ClockHours.of(*hours))
radii = st.tuples(st.integers(60, 100), st.integers(101, 170))


def inside(hours: ClockHours, inner: float, outer: float, point: Point) -> bool:
    """By definition, without any path: the nearest hour and the distance from the centre."""
    angle = math.degrees(math.atan2(point.x, -point.y)) % 360
    hour = round(angle / 30) % 12 or 12
    return hour in hours and inner < math.hypot(point.x, point.y) < outer


def outline(path: str) -> list[Polygon]:
    """The path's own arcs, flattened to fine polygons by a reader written for this test."""
    polygons = []
    for part in path.split("Z")[:-1]:
        points: list[tuple[float, float]] = []
        for command, numbers in re.findall(r"([MLA])([^MLA]*)", part):
            values = [float(v) for v in numbers.split()]
            if command in "ML":
                points.append((values[0], values[1]))
                continue
            radius, large, sweep = values[0], values[3], values[4]
            points += arc(points[-1], (values[5], values[6]), radius, large, sweep)
        polygons.append(Polygon(points))
    return polygons


def arc(
    start: tuple[float, float],
    end: tuple[float, float],
    radius: float,
    large: float,
    sweep: float,
) -> list[tuple[float, float]]:
    """Points of a circular arc about the centre 0, 0."""
    a0 = math.atan2(start[1], start[0])
    a1 = math.atan2(end[1], end[0])
    turn = (a1 - a0) % (2 * math.pi) if sweep else -((a0 - a1) % (2 * math.pi))
    assert (abs(turn) > math.pi + 1e-6) <= bool(large)
    return [
        (radius * math.cos(a0 + turn * i / 200), radius * math.sin(a0 + turn * i / 200))
        for i in range(1, 201)
    ]


@given(hour_sets, radii, st.integers(0, 35), st.floats(0.05, 0.95))
def test_a_point_is_in_the_drawing_exactly_when_its_hour_and_distance_are(
    hours: ClockHours, both: tuple[int, int], slot: int, depth: float
) -> None:
    """shapely's point-in-polygon on the drawn path against the definition of an hour."""
    inner, outer = both
    angle = math.radians(slot * 10)  # never on a border, which lies at 15, 45 ... degrees
    distance = inner + (outer - inner) * depth
    point = Point(distance * math.sin(angle), -distance * math.cos(angle))
    covered = sum(p.contains(point) for p in outline(geometry.hours_path(hours, inner, outer)))
    assert (covered % 2 == 1) == inside(hours, inner, outer, point)


@given(hour_sets, radii)
def test_the_drawn_area_is_the_share_of_the_ring(hours: ClockHours, both: tuple[int, int]) -> None:
    """Area of an annular sector: angle / 2 x (R^2 - r^2)."""
    inner, outer = both
    polygons = outline(geometry.hours_path(hours, inner, outer))
    drawn = sum(p.area for p in polygons)
    if len(hours) == 12:
        drawn = polygons[0].area - polygons[1].area
    expected = hours.coverage * math.pi * (outer**2 - inner**2)
    assert drawn == pytest.approx(expected, rel=2e-3)


@pytest.mark.parametrize(
    ("hour", "x", "y"), [(12, 0, -100), (3, 100, 0), (6, 0, 100), (9, -100, 0)]
)
def test_the_face_is_seen_as_one_faces_the_patient(hour: int, x: float, y: float) -> None:
    """12 up, 3 at the viewer's right, which is the patient's left (common practice)."""
    assert geometry.at(hour, 100) == pytest.approx((x, y))


@given(
    st.integers(1, 12),
    st.floats(20, 58),
    st.floats(20, 58),
    st.integers(0, 12).map(lambda hour: 30.0 * hour),
)
def test_a_lumen_at_skin_level_is_on_the_edge_and_one_off_centre_half_way(
    hour: int, across: float, along: float, turned: float
) -> None:
    """The edge as SVG draws it: an ellipse turned clockwise, y downwards."""
    steps = [2 * math.pi * i / 2000 for i in range(2000)]
    ellipse = Polygon([(across * math.cos(t), along * math.sin(t)) for t in steps])
    edge = rotate(ellipse, turned, origin=(0, 0)).exterior
    spot = geometry.lumen_spot("skin_level", hour, across, along, turned)
    assert spot is not None
    assert edge.distance(Point(spot)) < 0.05
    assert spot == pytest.approx(geometry.at(hour, math.hypot(*spot)), abs=0.02)
    half = geometry.lumen_spot("off_centre", hour, across, along, turned)
    assert half == pytest.approx((spot[0] / 2, spot[1] / 2), abs=0.02)


@pytest.mark.parametrize(
    ("place", "hour", "spot"),
    [
        ("centre", None, (0, 0)),
        ("", None, None),
        ("off_centre", None, None),
        ("skin_level", None, None),
    ],
)
def test_a_lumen_is_drawn_only_where_it_was_charted(
    place: str, hour: int | None, spot: tuple[float, float] | None
) -> None:
    assert geometry.lumen_spot(place, hour, 40, 58, 30) == spot


@pytest.mark.django_db
def test_the_lumen_is_in_words() -> None:
    charted = {"measurement__lumen": "skin_level", "measurement__lumen_hour": 6}
    said = face_of(AssessmentFactory(leaking=True, **charted)).stoma_words
    assert said.endswith("; lumen at skin level, towards 6 o'clock")
    none = face_of(AssessmentFactory(leaking=True, measurement__lumen=""))
    assert none.lumen is None
    assert "lumen" not in none.stoma_words


def test_words_say_kind_hours_reach_and_complaints() -> None:
    row = SkinFinding(
        kind="erosion", hours=[4, 5, 6, 7, 8], inner_mm=0, outer_mm=20, itch=True, pain=False
    )
    patch = skin_patch(row, "1")
    assert patch.words == "Raw, shallow erosion, 4 to 8 o'clock, 0 to 20 mm out; itch"
    assert not patch.unsure


def test_a_reach_not_recorded_is_drawn_as_unsure_and_named() -> None:
    patch = skin_patch(SkinFinding(kind="erosion", hours=[6]), "1")
    assert patch.unsure
    assert "how far out not recorded" in patch.words


@pytest.mark.django_db
def test_everything_on_the_face_is_in_words() -> None:
    assessment = AssessmentFactory(
        leaking=True, measurement__junction="separated", measurement__separation_hours=[3]
    )
    face = face_of(assessment)
    assert {patch.number for patch in face.patches} >= {"1", "S", "M", "L"}
    assert len(face.words) == len(face.patches)
    assert all(words.strip() for words in face.words)


def test_every_kind_has_a_pattern_of_its_own(settings: Any) -> None:
    source = (settings.BASE_DIR / "templates/_components/clock_patterns.html").read_text()
    found = dict(re.findall(r'id="\{\{ uid \}\}-(\w+)"[^>]*>(.*?)</pattern>', source))
    assert set(found) >= set(SkinKind.values) | {"separation", "bulge", "erosion_band", "leak"}
    without_colour = [re.sub(r"#[0-9a-f]{3,6}", "", pattern) for pattern in found.values()]
    assert len(set(without_colour)) == len(without_colour)
