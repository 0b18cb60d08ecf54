"""The clock face as an image on paper."""

from base64 import b64decode
from dataclasses import replace
from xml.etree import ElementTree

import pytest
from django.template.loader import render_to_string
from weasyprint.formatting_structure.boxes import LineBox

from clinic.documents.care_sheet.density import SPACINGS
from clinic.documents.care_sheet.pages import html_of
from clinic.documents.care_sheet.sheet import Sheet
from clinic.documents.rendering.clock_face_image import INSIDE, address_of, drawing_of
from clinic.documents.rendering.pdf import _set
from clinic.trends.drawing.svg import SVG
from clinic.visits.presenters.clockface import Face
from tests.clinic.documents import made_visits, paper
from tests.clinic.documents.made_visits import printed

pytestmark = pytest.mark.django_db


@pytest.fixture
def leaking() -> Sheet:
    return made_visits.sheet_of(made_visits.signed_as_planned("leaking"))


@pytest.fixture
def face(leaking: Sheet) -> Face:
    assert leaking.face
    return leaking.face


def parts(face: Face) -> list[ElementTree.Element]:
    return list(ElementTree.fromstring(drawing_of(face)).iter())  # noqa: S314 - our own drawing


def test_it_holds_the_patterns_it_is_filled_with_and_no_other(face: Face) -> None:
    held = {one.get("id") for one in parts(face) if one.tag == f"{{{SVG}}}pattern"}
    used = {one.get("fill", "") for one in parts(face) if one.get("fill", "").startswith("url(")}
    assert {f"url(#{one})" for one in held} == used
    assert f"sheet-{face.patches[0].fill}" in held


def test_every_mark_has_its_number_in_the_font_of_the_sheet(face: Face, leaking: Sheet) -> None:
    numbers = [one.text for one in parts(face) if one.tag == f"{{{SVG}}}text"]
    assert numbers == [patch.number for patch in face.patches]
    assert paper.fonts(printed(leaking)) == {"Liberation-Sans", "Liberation-Sans-Bold"}


def test_what_it_shows_is_in_words_beside_it(leaking: Sheet, face: Face) -> None:
    figures = [one for one in paper.structure(printed(leaking)) if one["/S"] == "/Figure"]
    assert leaking.face_words in [str(one.get("/Alt")) for one in figures]
    assert leaking.titled_face is not None
    assert leaking.titled_face.title == leaking.face_words
    assert not [one for one in parts(face) if one.tag.endswith(("title", "desc"))]


def test_it_is_the_same_whatever_else_the_process_has_drawn(face: Face) -> None:
    """Or a sheet printed before would not be known again: it is kept by what its page holds."""
    before = drawing_of(face)
    ElementTree.register_namespace("", "")  # as loading WeasyPrint does
    assert drawing_of(face) == before
    ElementTree.register_namespace("", SVG)  # as drawing a trend does
    assert drawing_of(face) == before


def test_the_address_is_the_drawing_itself(face: Face, leaking: Sheet) -> None:
    address = address_of(face)
    assert address.startswith(INSIDE)
    assert b64decode(address.removeprefix(INSIDE)) == drawing_of(face)
    assert html_of(leaking).count(address) == 1
    assert "<svg" not in html_of(leaking)


@pytest.mark.parametrize("spacing", [*SPACINGS, "large"])
def test_the_words_at_its_sides_are_turned_about_its_middle(leaking: Sheet, spacing: str) -> None:
    """Else they print over its marks."""
    sheet, said = (replace(leaking, large=spacing == "large"), spacing.removesuffix("large"))
    context = {"sheet": sheet, "paper": "a4", "spacing": said}
    pages = _set(render_to_string("documents/care_sheet/sheet.html", context)).pages
    boxes = [box for page in pages for box in page._page_box.descendants(placeholders=True)]
    named = [(box.element.get("class"), box) for box in boxes if box.element is not None]
    face = next(box for name, box in named if name == "face")
    lines = [box for _, box in named if isinstance(box, LineBox)]
    sides = [line for line in lines if line.element.get("class") in {"edge left", "edge right"}]
    assert len(sides) == 2
    for side in sides:
        middle = side.position_y + side.height / 2
        assert middle == pytest.approx(face.position_y + face.height / 2, abs=4)  # px: 1 mm
