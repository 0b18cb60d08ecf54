"""Pages that become papers are well-formed XML (XML 1.0, 2.1): the quickest reader takes them."""

from dataclasses import replace
from datetime import date
from xml.etree import ElementTree

import pytest
from django.template.loader import render_to_string

from clinic.documents.cutting_template.build import Template, cutting_template
from clinic.documents.cutting_template.template_drawing import Side
from clinic.documents.letter.build import visit_letter
from clinic.documents.letter.fit_to_page import versions
from clinic.documents.letter.views import html_of
from clinic.documents.next_visit_card import card
from clinic.documents.patient_language.said import said
from clinic.documents.supply_list.build import supply_list
from clinic.documents.wear_diary.build import diary
from clinic.patients.models import SheetLanguage
from clinic.visits.models import Assessment
from tests.clinic.documents import made_visits

pytestmark = pytest.mark.django_db


@pytest.fixture
def made() -> Assessment:
    found = made_visits.signed_as_planned("leaking")
    patient = found.stoma.patient
    type(patient).objects.filter(pk=patient.pk).update(given_name="Tam & Ann", family_name="<O\"'>")
    return made_visits.fresh(found)


def read(html: str) -> ElementTree.Element:
    assert html.startswith("<!DOCTYPE html>")
    return ElementTree.fromstring(html)  # noqa: S314 - our own page


def name_of(html: str) -> bool:
    return "Tam & Ann <O\"'>" in "".join(read(html).itertext())


@pytest.mark.parametrize("use", ["cut", "check"])
@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize("language", SheetLanguage)
def test_cutting_template(made: Assessment, use: str, size: str, language: str) -> None:
    decided = made_visits.decided(made)
    found = said(cutting_template(decided, side=Side.BACK, paper=size), language)
    assert isinstance(found, Template)
    for change in ({}, {"old": ""}, {"measured_again": "2 May 2026"}, {"signed": False}):
        shown = replace(found, use=use, kind="pre_cut", **change)
        assert name_of(render_to_string("documents/cutting_template/template.html", {"t": shown}))


def test_supply_list(made: Assessment) -> None:
    listed = supply_list(made_visits.decided(made))
    for shown in (listed, replace(listed, signed=False, left_out=("Ring",), passed=False)):
        assert name_of(
            render_to_string("documents/supply_list/list.html", {"list": shown, "paper": "a4"})
        )


@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("language", SheetLanguage)
def test_diary(made: Assessment, large: bool, language: str) -> None:
    month = date(2026, 2, 1)
    shown = said(diary(made.stoma, month=month, paper="letter", large=large), language)
    assert name_of(render_to_string("documents/wear_diary/diary.html", {"d": shown}))


@pytest.mark.parametrize("language", SheetLanguage)
def test_next_visit_card(made: Assessment, language: str) -> None:
    found = said(card((made_visits.decided(made),), paper="a4", large=False), language)
    for shown in (found, replace(found, signed=False, day="", before="Call us:")):
        assert name_of(render_to_string("documents/next_visit_card/card.html", {"card": shown}))


def test_letter_in_every_room_with_its_figure(made: Assessment) -> None:
    written = visit_letter(made, made_visits.decided(made), to="The surgeon")
    assert written.trend
    for version in versions(replace(written, signed=False)):
        assert name_of(html_of(version))
