"""The cutting template measured on the paper it prints on: the PDF's own paths, in mm."""

import io
from functools import cache
from math import cos, dist, hypot, radians, sin
from pathlib import Path

import pytest
from pypdf import PdfReader, PdfWriter, Transformation

from clinic.documents.cutting_template.template_drawing import Side
from clinic.patients.models import SheetLanguage
from planning import Plan
from tests.clinic.documents import made_visits, paper, vectors
from tests.clinic.documents.catalogues import LANGUAGES
from tests.clinic.documents.made_templates import (
    GAP_MM,
    LOPSIDED,
    OVAL,
    SHAPES,
    TURNED,
    plan_of,
    printed,
    template_of,
)
from tests.clinic.documents.vectors import Line, Point

pytestmark = pytest.mark.django_db

#: Widths that tell the lines apart, mm: as the template's drawing sets them.
CUT, STOMA, LARGEST, STARTER, RULER, CARD = 0.52, 0.32, 0.22, 0.27, 0.30, 0.42
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
#: What a template promises; what is drawn is nearer by far.
EXACT_MM = 0.1


def line(pdf: bytes, width: float, page: int = 0) -> Line:
    found = [one for one in vectors.lines(pdf, page) if abs(one.width - width) < 0.004]
    assert len(found) == 1, f"{len(found)} lines of {width} mm"
    return found[0]


@cache
def pdf_for(plan: Plan, side: Side, size: str, language: str = "en") -> bytes:
    return printed(template_of(plan, made_visits.assessed(), side, size, language))


def about(middle: Point, points: tuple[Point, ...]) -> list[Point]:
    """Points from the middle: x to the right of the page, y up the page."""
    return [(x - middle[0], middle[1] - y) for x, y in points]


#: Every shape in English; those that would show a mirror or another scale in all languages.
DRAWN = [("en", shape) for shape in SHAPES] + [
    (language, shape) for language in LANGUAGES for shape in ("turned", "lopsided")
]


#: Each side once on either paper: the lines are the same, only the place on the page differs.
SIDED = [(Side.FRONT, "a4"), (Side.BACK, "letter")]


@pytest.mark.parametrize(("side", "size"), SIDED)
@pytest.mark.parametrize(("language", "shape"), DRAWN)
def test_the_cut_line_is_the_plans_to_a_tenth_of_a_millimetre(
    shape: str, side: Side, size: str, language: str
) -> None:
    plan = plan_of(SHAPES[shape])
    pdf = pdf_for(plan, side, size, language)
    middle = line(pdf, STARTER).middle
    flip = -1 if side is Side.BACK else 1
    for width, wanted in (
        (CUT, plan.dimensions.opening_outline),
        (STOMA, plan.dimensions.stoma_outline),
    ):
        drawn = about(middle, line(pdf, width).points)
        assert len(drawn) == len(wanted) + 1
        assert dist(drawn[0], drawn[-1]) < 1e-6
        for (x, y), (px, py) in zip(drawn[:-1], wanted, strict=True):
            assert dist((x, y), (flip * px, py)) < EXACT_MM


@pytest.mark.parametrize("size", PAPERS)
@pytest.mark.parametrize("side", Side)
def test_an_oval_measures_its_axes_and_twice_the_gap(side: Side, size: str) -> None:
    """30 by 26 mm, its long axis from 12 to 6, and 2 mm on each side: 34 high, 30 wide."""
    pdf = pdf_for(plan_of(OVAL), side, size)
    assert line(pdf, CUT).size == pytest.approx((30.0, 34.0), abs=EXACT_MM)
    assert line(pdf, STOMA).size == pytest.approx((26.0, 30.0), abs=EXACT_MM)
    assert line(pdf, STOMA).dash
    assert not line(pdf, CUT).dash


@pytest.mark.parametrize("language", SheetLanguage)
@pytest.mark.parametrize(("side", "size"), [*SIDED, (Side.FRONT, "letter")])
def test_both_rulers_measure_100_mm(side: Side, size: str, language: str) -> None:
    pdf = pdf_for(plan_of(OVAL), side, size, language)
    found = [one for one in vectors.lines(pdf) if abs(one.width - RULER) < 0.004]
    assert len(found) == 2
    for ruler, along in zip(found, (0, 1), strict=True):
        spine, ticks = ruler.parts[0], ruler.parts[1:]
        assert dist(*spine) == pytest.approx(100.0, abs=0.01)
        assert abs(spine[0][1 - along] - spine[1][1 - along]) < 0.001
        starts = [tick[0][along] - spine[0][along] for tick in ticks]
        assert starts == pytest.approx(list(range(0, 101, 5)), abs=0.01)
        lengths = {round(start): dist(*tick) for start, tick in zip(starts, ticks, strict=True)}
        assert max(lengths.values()) == pytest.approx(lengths[50])
        assert lengths[0] == pytest.approx(lengths[100]) == pytest.approx(lengths[50])


@pytest.mark.parametrize("language", SheetLanguage)
@pytest.mark.parametrize("size", PAPERS)
def test_the_card_box_is_a_card(size: str, language: str) -> None:
    """ISO/IEC 7810, ID-1: 85.60 by 53.98 mm."""
    pdf = pdf_for(plan_of(OVAL), Side.FRONT, size, language)
    assert line(pdf, CARD).size == pytest.approx((85.60, 53.98), abs=0.01)


@pytest.mark.parametrize("size", PAPERS)
@pytest.mark.parametrize(("language", "shape"), DRAWN)
def test_everything_lies_on_the_paper_named(shape: str, size: str, language: str) -> None:
    pdf = pdf_for(plan_of(SHAPES[shape]), Side.FRONT, size, language)
    width, height = PAPERS[size]
    for page in range(len(PdfReader(io.BytesIO(pdf)).pages)):
        assert vectors.page_size(pdf, page) == pytest.approx((width, height), abs=0.1)
        for one in vectors.lines(pdf, page):
            left, top, right, bottom = one.box
            assert left > 5
            assert top > 5
            assert right < width - 5
            assert bottom < height - 5


@pytest.mark.parametrize("shape", SHAPES)
def test_the_largest_cut_holds_the_opening_and_no_more(shape: str) -> None:
    pdf = pdf_for(plan_of(SHAPES[shape]), Side.FRONT, "a4")
    ring, middle = line(pdf, LARGEST), line(pdf, STARTER).middle
    assert ring.middle == pytest.approx(middle, abs=0.01)
    reach = max(hypot(x, y) for x, y in about(middle, line(pdf, CUT).points))
    assert ring.size == pytest.approx((2 * reach, 2 * reach), abs=0.02)
    said = paper.whole_text(pdf).split("Largest cut ")[1].split(" mm across")[0]
    assert -0.01 <= float(said) - 2 * reach <= 0.1


@pytest.mark.parametrize("shape", SHAPES)
def test_the_starter_hole_lies_inside_the_opening(shape: str) -> None:
    pdf = pdf_for(plan_of(SHAPES[shape]), Side.BACK, "a4")
    starter = line(pdf, STARTER)
    nearest = min(hypot(x, y) for x, y in about(starter.middle, line(pdf, CUT).points))
    assert starter.size[0] / 2 < nearest / 2


def hour_spots(pdf: bytes, folder: Path) -> dict[int, Point]:
    """Where each hour is written, from the middle of the opening."""
    middle = line(pdf, STARTER).middle
    reach = line(pdf, LARGEST).size[0] / 2
    found = {}
    for box in paper.boxes(pdf, folder):
        x = (box.left + box.right) / 2 * vectors.MM_PER_POINT - middle[0]
        y = middle[1] - (box.top + box.bottom) / 2 * vectors.MM_PER_POINT
        if box.word.isdigit() and abs(hypot(x, y) - reach - 9) < 2.5:
            found[int(box.word)] = (x, y)
    return found


@pytest.mark.parametrize(("side", "size"), SIDED)
@pytest.mark.parametrize("outline", [TURNED, LOPSIDED])
@pytest.mark.parametrize("language", SheetLanguage)
def test_the_hours_run_the_right_way(
    outline: object, side: Side, size: str, language: str, tmp_path: Path
) -> None:
    """Clockwise seen from the front; the other way seen from the back. 12 is always on top."""
    pdf = pdf_for(plan_of(outline), side, size, language)  # type: ignore[arg-type]
    spots = hour_spots(pdf, tmp_path)
    assert sorted(spots) == list(range(1, 13))
    reach = line(pdf, LARGEST).size[0] / 2 + 9
    flip = -1 if side is Side.BACK else 1
    for hour, (x, y) in spots.items():
        angle = radians(30 * hour)
        wanted = (flip * reach * sin(angle), reach * cos(angle))
        assert dist((x, y), wanted) < 2.0, hour


def test_the_hours_belong_to_the_outline(tmp_path: Path) -> None:
    """The lopsided stoma is widest at 6 o'clock (22 mm): there the line is 24 mm away."""
    for side in Side:
        pdf = pdf_for(plan_of(LOPSIDED), side, "a4")
        middle = line(pdf, STARTER).middle
        drawn = about(middle, line(pdf, CUT).points)
        spots = hour_spots(pdf, tmp_path)
        for hour, radius in ((6, 22.0), (3, 16.0), (9, 13.0)):
            x, y = spots[hour]
            out = hypot(x, y)
            near = [hypot(*p) for p in drawn if (p[0] * x + p[1] * y) / out / hypot(*p) > 0.9995]
            assert near
            assert min(near) == pytest.approx(radius + GAP_MM, abs=1.0)


def test_mirrored_is_mirrored() -> None:
    plan = plan_of(LOPSIDED)
    front, back = (pdf_for(plan, side, "a4") for side in (Side.FRONT, Side.BACK))
    seen = [about(line(p, STARTER).middle, line(p, CUT).points) for p in (front, back)]
    for (x, y), (mx, my) in zip(*seen, strict=True):
        assert (mx, my) == pytest.approx((-x, y), abs=0.01)
    assert max(abs(x - mx) for (x, _), (mx, _) in zip(*seen, strict=True)) > 5


def test_the_reader_would_notice_fit_to_page() -> None:
    """Letter fitted to A4 prints at 0.9727: 100 mm become 97.27, outside 99 to 101."""
    pdf = pdf_for(plan_of(OVAL), Side.FRONT, "letter")
    writer = PdfWriter(clone_from=io.BytesIO(pdf))
    writer.pages[0].add_transformation(Transformation().scale(0.9727))
    out = io.BytesIO()
    writer.write(out)
    shrunk = [one for one in vectors.lines(out.getvalue()) if len(one.parts) == 22]
    assert len(shrunk) == 2
    for ruler in shrunk:
        assert dist(*ruler.parts[0]) == pytest.approx(97.27, abs=0.01)
