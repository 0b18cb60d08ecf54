"""The wear diary in Spanish and Arabic: whole, Arabic from right to left, words in their cells."""

import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from pytest_django import Settings
from weasyprint.formatting_structure.boxes import InlineBlockBox, TableCellBox, TextBox

from clinic.accounts.models import Role
from clinic.documents.models import PrintedDocument
from clinic.documents.patient_language.said import said
from clinic.documents.patient_language.translator import Translator, translator_for
from clinic.documents.rendering import pdf as press
from clinic.documents.wear_diary.build import Diary, days_of, month_words
from clinic.patients.models import SheetLanguage, Stoma
from tests.clinic.documents import paper
from tests.clinic.documents.catalogues import LANGUAGES
from tests.clinic.documents.leftover_english import left_over
from tests.clinic.documents.patient_language.test_language_paper import (
    FONTS,
    embedded,
    glyphs,
    place,
)
from tests.clinic.documents.patient_language.test_languages import NOTE, REVIEW, REVIEW_ENGLISH
from tests.clinic.documents.set_once import set_once
from tests.clinic.documents.wear_diary.test_build import LONG, MONTHS, html_of, made
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory, StomaFactory

PHONES = {"CLINIC_PHONE": "555-0100", "EMERGENCY_NUMBER": "112"}


@pytest.fixture(autouse=True)
def phones(settings: Settings) -> None:
    for name, value in PHONES.items():
        setattr(settings, name, value)


def cells(html: str) -> Iterator[TableCellBox]:
    """Every cell of the tables as it is laid out."""
    for page in press._set(html).pages:
        for box in page._page_box.descendants():
            if isinstance(box, TableCellBox):
                yield box


def ticks_of(cell: TableCellBox) -> list[InlineBlockBox]:
    return [box for box in cell.descendants() if isinstance(box, InlineBlockBox)]


def words_of(cell: TableCellBox) -> list[TextBox]:
    return [box for box in cell.descendants() if isinstance(box, TextBox) and box.text.strip()]


@pytest.mark.parametrize("language", SheetLanguage)
@pytest.mark.parametrize(("size", "large"), [("a4", True), ("letter", False)])
def test_no_word_or_box_leaves_its_cell(language: str, size: str, large: bool) -> None:
    """Days and heads are in narrow columns, unbroken; boxes to tick in the middle of theirs."""
    seen = boxes = 0
    for cell in cells(html_of(made(MONTHS[3], size, large=large, language=language))):
        words = words_of(cell)
        left = cell.content_box_x()
        boxes += len(ticks_of(cell)) if cell.element.tag == "td" else 0
        for word in words:
            assert left - 0.1 <= word.position_x, word.text
            assert word.position_x + word.width <= left + cell.width + 0.1, word.text
        for tick in ticks_of(cell) if cell.element.tag == "td" else ():
            start, end = tick.border_box_x(), tick.border_box_x() + tick.border_width()
            assert start - left == pytest.approx(left + cell.width - end, abs=0.1)
            assert start >= left - 0.1
        if cell.element.tag == "th" and cell.element.get("scope") == "col":
            assert len({word.position_y for word in words}) == 1
            seen += 1
    assert (seen, boxes) == (8, 31 * 6)


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("large", [False, True])
def test_nothing_of_it_stays_english(language: str, large: bool) -> None:
    """Letters to tick, the name and the note for the reviewer separately."""
    for month in (date(2026, number, 1) for number in range(1, 13)):
        shown = html_of(made(month, large=large, language=language))
        english = html_of(made(month, large=large))
        assert left_over(shown, english, language) == set()
    assert left_over(english, english, language) > {"Wear diary: December 2026", "Fell off"}


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_sentence_without_an_entry_is_marked_and_said(
    monkeypatch: pytest.MonkeyPatch, language: str
) -> None:
    assert not made(language=language).in_english
    find = Translator.find
    monkeypatch.setattr(
        Translator,
        "find",
        lambda self, words, context="": None if words == "Leak" else find(self, words, context),
    )
    found = made(language=language)
    assert found.in_english == ("Leak",)
    html = html_of(found)
    assert NOTE[language] in html
    assert '<span class="in-english" lang="en" dir="ltr">' in html


def test_opening_hours_are_not_on_it_and_not_said_to_be_english(settings: Settings) -> None:
    settings.CLINIC_HOURS, settings.CLINIC_HOURS_TRANSLATED = "Monday to Friday", {}
    for language in LANGUAGES:
        found = made(language=language)
        assert found.in_english == ()
        assert "Monday" not in html_of(found)


@pytest.mark.parametrize("language", LANGUAGES)
def test_needs_review_until_a_reviewer_is_named(settings: Settings, language: str) -> None:
    for words in (REVIEW[language], REVIEW_ENGLISH):
        assert words in html_of(made(language=language))
        assert words not in html_of(made())
    settings.SHEET_REVIEWERS = {language: "Rowan Ashgrove"}
    html = html_of(made(language=language))
    assert REVIEW_ENGLISH not in html
    assert "Rowan Ashgrove" in html


@pytest.mark.parametrize("language", SheetLanguage)
@pytest.mark.parametrize("large", [False, True])
def test_language_tags_fonts_and_letters(language: str, large: bool) -> None:
    one = set_once(html_of(made(large=large, language=language)))
    read = paper.reader(one)
    assert read.trailer["/Root"]["/Lang"] == language  # type: ignore[index]
    assert read.metadata is not None
    assert read.metadata.title == translator_for(language).translate("Wear diary")
    assert {"H1", "H2", "Table", "TH", "TD"} <= set(paper.tags(one))
    assert paper.fonts(one) == FONTS[language]
    assert all(embedded(one).values())
    assert 0 not in list(glyphs(one))
    direction = "rtl" if language == "ar" else "ltr"
    assert f'lang="{language}" dir="{direction}"' in html_of(made(language=language))


@pytest.mark.parametrize(
    ("language", "month", "days"),
    [
        ("en", "March 2026", ("Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat")),
        ("es", "marzo de 2026", ("dom", "lun", "mar", "mié", "jue", "vie", "sáb")),
        (
            "ar",
            "مارس 2026",
            ("الأحد", "الاثنين", "الثلاثاء", "الأربعاء", "الخميس", "الجمعة", "السبت"),
        ),
    ],
)
def test_months_and_days_are_named_in_the_language(
    language: str, month: str, days: tuple[str, ...]
) -> None:
    """1 March 2026 is a Sunday."""
    assert said(month_words(date(2026, 3, 1)), language) == month
    assert tuple(day.name for day in said(days_of(date(2026, 3, 1)), language)[:7]) == days


def columns(found: list[paper.Box], one: Diary) -> list[paper.Box]:
    """The heads of the first table, then its letters."""
    heads = [
        translator_for(one.language).translate(head, "column of the diary")
        for head in ("Day", "On", "Off")
    ]
    last = translator_for(one.language).translate("Why", "column of the diary").split()[0]
    placed = [place(found, head) for head in (*heads, last)]
    top = min(box.top for box in found if box.word == "p")
    letters = [box for box in found if box.word in "plif" and abs(box.top - top) < 4]
    side = sorted(letters, key=lambda box: box.left, reverse=one.language == "ar")
    return [*placed, *side[:4]]


@pytest.mark.parametrize("language", SheetLanguage)
def test_columns_run_with_the_writing(language: str, tmp_path: Path) -> None:
    """Arabic: day, on, off and why from the right; the first half of the month at the right."""
    one = made(language=language)
    found = paper.boxes(set_once(html_of(one)), tmp_path)
    if language == "ar":
        found.sort(key=lambda box: -box.right)
    order = columns(found, one)
    assert [box.word for box in order[4:]] == ["p", "l", "i", "f"]
    forward = [box.left for box in order[:3]] + [box.left for box in order[4:]]
    assert forward == sorted(forward, reverse=language == "ar")
    first, second = (next(box for box in found if box.word == day) for day in ("3", "19"))
    assert (first.left > second.right) == (language == "ar")


# --- the page -------------------------------------------------------------------------------
@pytest.fixture
def stoma(db: None) -> Stoma:
    return StomaFactory.create(patient=PatientFactory.create(sheet_language="ar"))


def test_the_patients_own_language_or_asked_for_once(client: Client, stoma: Stoma) -> None:
    client.force_login(UserFactory.create(role=Role.DESK))
    for asked, printed in (("", "ar"), ("es", "es"), ("en", "en"), ("nonsense", "ar")):
        query = {"month": "2026-03"} | ({"language": asked} if asked else {})
        answer: Any = client.get(reverse("documents:diary", args=[stoma.uuid]), query)
        assert answer.status_code == 200
        root: Any = paper.reader(answer.content).trailer["/Root"]
        assert root["/Lang"] == printed, asked
        assert PrintedDocument.objects.latest("id").language == printed


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_name_of_many_letters_keeps_every_word(language: str, tmp_path: Path) -> None:
    one = set_once(html_of(made(MONTHS[3], "letter", LONG, language=language)))
    for box in paper.boxes(one, tmp_path):
        assert 28 <= box.left <= box.right <= box.page_width - 28
    assert len(re.findall(r"\d{1,2}", paper.page_texts(one)[0])) > 31
