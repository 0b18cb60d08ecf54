"""Our own pages, read as XML: the same paper as read as HTML, and no page is lost that is not."""

from dataclasses import replace
from typing import Any

import pytest

from clinic.documents.care_sheet.pages import html_of
from clinic.documents.care_sheet.sheet import Sheet
from clinic.documents.rendering import pdf as pdf_module
from clinic.documents.rendering.pdf import pdf_of
from clinic.documents.shared import Who
from clinic.patients.models import SheetLanguage
from tests.clinic.documents import made_visits, paper

NAME = "Tam & Ann <O\"'>"


@pytest.fixture
def only_xml(monkeypatch: pytest.MonkeyPatch) -> None:
    """Falling back to the HTML reader is logged."""
    monkeypatch.setattr(pdf_module._press(), "html", None)


@pytest.mark.usefixtures("only_xml")
@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("signed", [False, True])
def test_the_care_sheet_is_well_formed(sheet: Sheet, large: bool, signed: bool) -> None:
    named = replace(sheet, who=Who(NAME, "5 April 1961", "T1"), large=large, signed=signed)
    assert NAME in paper.whole_text(pdf_of(html_of(named)))


@pytest.mark.django_db
@pytest.mark.usefixtures("only_xml")
@pytest.mark.parametrize("situation", ["leaking", "hernia", "well_fitting"])
def test_of_every_language(situation: str) -> None:
    """Read, and not set: the spacings are classes of one page (``test_density.py``)."""
    made = made_visits.signed_as_planned(situation)
    for language in SheetLanguage.values:
        page = html_of(made_visits.sheet_of(made, language=language))
        read = pdf_module._press()._page(page).etree_element
        assert made.visit.patient.record_number in "".join(read.itertext())


def test_read_as_xml_it_is_the_same_paper(sheet: Sheet, monkeypatch: pytest.MonkeyPatch) -> None:
    quick = pdf_of(html_of(sheet))

    def never(*_given: Any) -> None:
        raise pdf_module.ParseError

    monkeypatch.setattr(pdf_module._press(), "written", never)
    slow = pdf_of(html_of(sheet))
    assert paper.page_texts(quick) == paper.page_texts(slow)
    assert paper.tags(quick) == paper.tags(slow)


def test_a_sign_that_xml_has_no_place_for_does_not_stop_the_paper(sheet: Sheet) -> None:
    """XML 1.0, 2.2: most control characters are not allowed."""
    odd = replace(sheet, who=replace(sheet.who, name="Imogen\x0bThistledown"))
    printed = pdf_of(html_of(odd))
    assert "Caring for your stoma" in paper.whole_text(printed).replace("\x00", "")
