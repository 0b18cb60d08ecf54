"""The cutting template in Spanish and Arabic: whole, its words on the right side, never mirrored
by the direction of writing."""

import re
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from django.template.loader import render_to_string
from django.test import Client
from django.urls import reverse
from pytest_django import Settings

from clinic.accounts.models import Role
from clinic.documents.cutting_template.build import Template
from clinic.documents.cutting_template.template_drawing import Side
from clinic.documents.models import PrintedDocument
from clinic.documents.patient_language.said import said
from clinic.documents.patient_language.translator import Translator, translator_for
from clinic.documents.wear_diary.build import diary
from clinic.patients.models import SheetLanguage
from clinic.visits.models import Assessment
from planning.geometry.outline import ellipse
from planning.results.message import Days
from tests.clinic.documents import made_visits, paper, vectors
from tests.clinic.documents.catalogues import LANGUAGES
from tests.clinic.documents.leftover_english import left_over
from tests.clinic.documents.made_templates import LOPSIDED, OVAL, plan_of, printed, template_of
from tests.clinic.documents.patient_language.test_language_paper import (
    FONTS,
    PLAIN,
    embedded,
    glyphs,
)
from tests.clinic.documents.patient_language.test_languages import NOTE, REVIEW, REVIEW_ENGLISH
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.django_db
#: Words for the patient's left and right, and what each says and never says.
LEFT = {"en": "left", "es": "izquierda", "ar": "يسار"}
RIGHT = {"en": "right", "es": "derecha", "ar": "يمين"}
TOP = {"en": "head", "es": "cabeza", "ar": "الرأس"}
#: The heading over the drawing; the way to 3 o'clock in the sentence under it.
FACES = {
    ("en", Side.FRONT): ("Front of the barrier", "3 o'clock lies to the right"),
    ("en", Side.BACK): ("Back of the barrier", "3 o'clock lies to the left"),
    ("es", Side.FRONT): ("la parte delantera de la barrera", "Las 3 quedan a la derecha"),
    ("es", Side.BACK): ("la parte de atrás de la barrera", "Las 3 quedan a la izquierda"),
    ("ar", Side.FRONT): ("وجه اللصقة الأمامي نحوك", "الساعة 3 إلى اليمين"),
    ("ar", Side.BACK): ("ظهر اللصقة نحوك", "الساعة 3 إلى اليسار"),
}
CASES = [(language, side) for language in SheetLanguage for side in Side]


@pytest.fixture
def made() -> Assessment:
    return made_visits.assessed(given_name="Imogen", family_name="Thistledown")


def html_of(template: Template) -> str:
    return render_to_string("documents/cutting_template/template.html", {"t": template})


def variants(made: Assessment, language: str) -> list[Template]:
    """Everything the paper can say."""
    cut = plan_of(OVAL, convex_depth_class="deep")
    old = template_of(cut, made, language=language)
    new = replace(old, old="")
    again = replace(
        old, measured_again=translator_for(language).translate("{day} (not signed yet)", day="2026")
    )
    draft = template_of(cut, made, Side.BACK, language=language, signed=False)
    ready = template_of(plan_of(ellipse(30, 30), "pre_cut"), made, language=language)
    rolled = template_of(plan_of(OVAL, "mouldable"), made, Side.BACK, "letter", language)
    return [old, new, again, draft, ready, replace(ready, measured_again="2026"), rolled]


@pytest.mark.parametrize(("language", "side"), CASES)
def test_left_and_right_are_the_patients_own(
    made: Assessment, language: str, side: Side, tmp_path: Path
) -> None:
    """From the front the patient's left lies at the right, at 3 o'clock; from the back at the
    left. Read from the page's words and from the paper."""
    found = template_of(plan_of(LOPSIDED), made, side, language=language)
    drawing = found.drawing
    top, left, right = drawing.sides
    for word, own, other in ((left, LEFT, RIGHT), (right, RIGHT, LEFT), (top, TOP, LEFT)):
        assert own[language] in word.text
        assert other[language] not in word.text
    assert top.y < drawing.y - drawing.reach
    three, nine = drawing.hours[2], drawing.hours[8]
    assert (three.text, nine.text) == ("3", "9")
    for word, hour in ((left, three), (right, nine)):
        assert (word.x > drawing.x) == (hour.x > drawing.x)
        assert word.y == pytest.approx(drawing.y)
    assert (left.x > drawing.x) == (side is Side.FRONT)
    html = html_of(found)
    for word in drawing.sides:
        placed = f"left: {word.x - 40}mm; top: {word.y - 3}mm"
        assert re.search(
            f'<p class="word[^>]*{placed}[^>]*>{word.text}</p>'.replace(".", "[.]"),
            html.replace("&#x27;", "'"),
        )
    assert on_paper(printed(found), LEFT[language], tmp_path) == (side is Side.FRONT)
    assert on_paper(printed(found), RIGHT[language], tmp_path) == (side is Side.BACK)


def on_paper(pdf: bytes, word: str, folder: Path) -> bool:
    """Whether ``word`` beside the drawing, level with its middle, lies right of it."""
    ring = next(one for one in vectors.lines(pdf) if abs(one.width - 0.22) < 0.004)
    out = ring.size[0] / 2 + 15.5
    found = []
    for box in paper.boxes(pdf, folder):
        x = (box.left + box.right) / 2 * vectors.MM_PER_POINT - ring.middle[0]
        y = (box.top + box.bottom) / 2 * vectors.MM_PER_POINT - ring.middle[1]
        beside = abs(abs(x) - out) < 2 and abs(y) < 25
        if beside and letters(box.word.translate(PLAIN)) in {word, word[::-1]}:
            found.append(x)
    assert len(found) == 1, word
    return found[0] > 0


def letters(word: str) -> str:
    return "".join(sign for sign in word if sign.isalpha())


@pytest.mark.parametrize(("language", "side"), CASES)
def test_the_side_that_faces_you_is_named(made: Assessment, language: str, side: Side) -> None:
    html = html_of(template_of(plan_of(OVAL), made, side, language=language))
    html = html.replace("&#x27;", "'")
    heading = html.partition('<p class="side">')[2].partition("</p>")[0]
    said = html.partition('<p class="side">')[2].partition('<div class="with-legend">')[0]
    for (other_language, other), (face, way) in FACES.items():
        if other_language == language:
            assert (face in heading) == (other is side)
            assert (way in said) == (other is side)


@pytest.mark.parametrize("language", LANGUAGES)
def test_nothing_of_it_stays_english(made: Assessment, settings: Settings, language: str) -> None:
    settings.CLINIC_HOURS_TRANSLATED = {}
    for shown, english in zip(variants(made, language), variants(made, "en"), strict=True):
        assert not shown.in_english  # nor opening hours, which are not on it
        assert left_over(html_of(shown), html_of(english), language) == set()
        assert "in-english" not in html_of(shown).partition('class="reviewed"')[0]
        assert len(left_over(html_of(english), html_of(english), language)) > 20


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_sentence_without_an_entry_is_marked_and_said(
    made: Assessment, monkeypatch: pytest.MonkeyPatch, language: str
) -> None:
    find = Translator.find
    monkeypatch.setattr(
        Translator,
        "find",
        lambda self, words, context="": (
            None if words == "patient's left" else find(self, words, context)
        ),
    )
    found = template_of(plan_of(OVAL), made, language=language)
    assert found.in_english == ("patient's left",)
    assert NOTE[language] in html_of(found)


@pytest.mark.parametrize("language", LANGUAGES)
def test_needs_review_until_a_reviewer_is_named(
    made: Assessment, settings: Settings, language: str
) -> None:
    for words in (REVIEW[language], REVIEW_ENGLISH):
        for shown in variants(made, language):
            assert words in html_of(shown)
        assert words not in html_of(template_of(plan_of(OVAL), made))
    settings.SHEET_REVIEWERS = {language: "Rowan Ashgrove"}
    html = html_of(template_of(plan_of(OVAL), made, language=language))
    assert REVIEW_ENGLISH not in html
    assert "Rowan Ashgrove" in html


def test_no_line_ends_in_a_space(made: Assessment) -> None:
    """WeasyPrint 70.0 would break a line from right to left that fits but for its last space
    after the first word."""
    pages = [html_of(shown) for shown in variants(made, "ar")]
    for large in (False, True):
        month = date(2026, 3, 1)
        shown = said(diary(made.stoma, month=month, paper="a4", large=large), "ar")
        pages.append(render_to_string("documents/wear_diary/diary.html", {"d": shown}))
    for page in pages:
        assert not re.findall(r"\s</(?:p|h1|h2|dt|dd|td|th)>", page)


@pytest.mark.parametrize("language", SheetLanguage)
def test_words_in_the_drawing_are_figures_alone(made: Assessment, language: str) -> None:
    """Letters of a drawing are set one by one, so that those of Arabic would not join."""
    html = html_of(template_of(plan_of(OVAL), made, language=language))
    inside = re.findall(r"<text[^>]*>(.*?)</text>", html)
    assert len(inside) == 12 + 6
    assert {word for word in inside if not word.isdigit()} == {"50 mm"}


@pytest.mark.parametrize("side", Side)
@pytest.mark.parametrize("language", LANGUAGES)
def test_the_drawing_is_that_of_the_english_paper(
    made: Assessment, language: str, side: Side
) -> None:
    """Line by line, hour by hour: only the side mirrors it, never the direction of writing."""
    here, english = (
        template_of(plan_of(LOPSIDED), made, side, language=code) for code in (language, "en")
    )
    assert replace(here.drawing, sides=()) == replace(english.drawing, sides=())
    for one, other in zip(here.drawing.sides, english.drawing.sides, strict=True):
        assert (one.x, one.y, one.turn) == (other.x, other.y, other.turn)
    css = Path("static/css/template.css").read_text() + Path("static/css/paper.css").read_text()
    assert "scale(" not in html_of(here) + css


@pytest.mark.parametrize("language", SheetLanguage)
def test_language_tags_fonts_and_letters(made: Assessment, language: str) -> None:
    found = template_of(plan_of(OVAL), made, language=language)
    pdf = printed(found)
    read = paper.reader(pdf)
    assert read.trailer["/Root"]["/Lang"] == language  # type: ignore[index]
    assert read.metadata is not None
    assert read.metadata.title == translator_for(language).translate("Cutting template")
    assert {"H1", "H2", "P", "Figure"} <= set(paper.tags(pdf))
    assert paper.fonts(pdf) == FONTS[language]
    assert all(embedded(pdf).values())
    assert 0 not in list(glyphs(pdf))
    direction = "rtl" if language == "ar" else "ltr"
    assert f'lang="{language}" dir="{direction}"' in html_of(found)


#: Every two of language, paper and outline together once.
LARGE = ellipse(105, 100)
EACH = [
    *(("en", "a4", OVAL), ("es", "letter", OVAL), ("ar", "a4", OVAL)),
    *(("en", "letter", LARGE), ("es", "a4", LARGE), ("ar", "letter", LARGE)),
]


@pytest.mark.parametrize(("language", "size", "outline"), EACH)
def test_nothing_is_cut_off(language: str, size: str, outline: object, tmp_path: Path) -> None:
    """Beside the drawing or under it; with the longest name."""
    made = made_visits.assessed(given_name="Wilhelmina" * 8, family_name="Thistledown" * 7)
    plan = plan_of(outline, convex_depth_class="deep")  # type: ignore[arg-type]
    found = template_of(plan, made, Side.BACK, size, language, signed=False)
    boxes = paper.boxes(printed(found), tmp_path)
    assert len(boxes) > 150
    for box in boxes:
        assert box.left >= 28, box
        assert box.right <= box.page_width - 28, box
        assert box.top >= 0
        assert box.bottom <= box.page_height


@pytest.mark.parametrize("language", SheetLanguage)
def test_the_legend_is_beside_the_drawing_where_reading_goes_on(
    made: Assessment, language: str
) -> None:
    pdf = printed(template_of(plan_of(OVAL), made, language=language))
    lines = vectors.lines(pdf)
    cut = next(one for one in lines if abs(one.width - 0.52) < 0.004)
    legend = next(one for one in lines if abs(one.width - 0.55) < 0.004)
    assert (legend.box[0] > cut.box[2]) == (language != "ar")
    assert (legend.box[2] < cut.box[0]) == (language == "ar")


def test_the_patients_own_language_or_asked_for_once(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    plan = plan_of(OVAL)
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed(sheet_language="es")
    made_visits.decide(made, plan)
    made_visits.sign(made)
    client.force_login(UserFactory.create(role=Role.DESK))
    for asked, printed_in in (("", "es"), ("ar", "ar"), ("en", "en"), ("nonsense", "es")):
        query = {"language": asked} if asked else {}
        answer: Any = client.get(reverse("documents:cutting_template", args=[made.uuid]), query)
        assert answer.status_code == 200
        lang = paper.reader(answer.content).trailer["/Root"]["/Lang"]  # type: ignore[index]
        assert lang == PrintedDocument.objects.latest("id").language == printed_in, asked


@pytest.mark.parametrize(
    ("language", "size", "gap", "old"),
    [
        ("es", "34 mm por 30 mm (aprox. 1 5/16 por 1 3/16 pulgadas)", "2.0 mm", "45 días"),
        ("ar", "34 مم في 30 مم (حوالي 1 5/16 في 1 3/16 بوصة)", "2.0 مم", "45 يومًا"),
    ],
)
def test_sizes_and_days_are_put_together_in_the_language(
    made: Assessment, language: str, size: str, gap: str, old: str
) -> None:
    found = template_of(plan_of(OVAL), made, language=language, old=Days(45))
    assert (found.size.replace("\N{NO-BREAK SPACE}", " "), found.gap, found.old) == (size, gap, old)
