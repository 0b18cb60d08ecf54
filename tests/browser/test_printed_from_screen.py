"""A page printed from the screen, by day or at night: whose it is, on every sheet of paper, above
and below; black on white."""

from io import BytesIO

import pytest
from django.urls import reverse
from pypdf import PdfReader

from clinic.formatting import day
from tests.browser.conftest import OpenPage, SmallClinic
from tests.browser.test_contrast import COLOURS
from tests.clinic.plans.signed_visits import accept, sign
from tests.factories.accounts import UserFactory
from tests.factories.tasks import TaskFactory

pytestmark = pytest.mark.browser

COLOUR = "([name, part]) => getComputedStyle(document.querySelector(name))[part]"


def rgb(colour: str) -> str:
    """As a browser says it."""
    return f"rgb({', '.join(str(int(colour[i : i + 2], 16)) for i in (1, 3, 5))})"


def test_each_sheet_of_paper_says_whose_it_is(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    for _ in range(2):
        seen = small_clinic.draft(leaking=True)
        accept(seen)
        sign(seen)
    patient = small_clinic.patient
    marks = ("Wintergreen, Sorrel", patient.record_number, day(patient.date_of_birth))
    page = open_page(small_clinic.nurse, color_scheme="dark")
    for path in (
        reverse("trends:stoma", args=[small_clinic.stoma.uuid]),
        reverse("patients:record", args=[patient.uuid]),
        reverse("charting:visit", args=[seen.visit.uuid]),
        reverse("charting:chart", args=[small_clinic.draft(leaking=True).uuid]),
    ):
        page.goto(small_clinic.url + path)
        page.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
        sheets = [sheet.extract_text() for sheet in PdfReader(BytesIO(page.pdf())).pages]
        assert len(sheets) > 1, path
        for number, text in enumerate(sheets, start=1):
            words = " ".join(text.split())
            assert min(words.count(mark) for mark in marks) >= 2, (path, number, words)
        page.emulate_media(media="print", color_scheme="dark")
        assert page.evaluate(COLOUR, ["body", "color"]) == rgb(COLOURS["ink"])
        assert page.evaluate(COLOUR, ["body", "backgroundColor"]) == rgb("#ffffff")
        page.emulate_media(media="null", color_scheme="dark")
        assert page.evaluate(COLOUR, ["body", "color"]) != rgb(COLOURS["ink"])


def test_measures_on_paper_hide_small_numbers_and_name_no_one(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    """On the lead's screen nothing is hidden; paper leaves the clinic."""
    seen = small_clinic.draft(leaking=True)
    accept(seen)
    sign(seen)
    TaskFactory.create(patient=small_clinic.patient)
    page = open_page(UserFactory.create(role="lead"))
    page.goto(f"{small_clinic.url}{reverse('measures:clinic')}?since=Jan+2025&until=Dec+2025")
    leak = page.locator("tr", has_text="Leak under the barrier")
    assert "100.0 (2.5 to 100.0)" in leak.nth(1).inner_text()
    assert small_clinic.patient.record_number in page.locator("main").inner_text()
    paper = "".join(sheet.extract_text() for sheet in PdfReader(BytesIO(page.pdf())).pages)
    assert small_clinic.patient.record_number not in paper
    assert "100.0 (2.5" not in paper
    assert "fewer than 5" in paper
    assert "To act on today" not in paper
    assert "Clopper and Pearson 1934" in paper  # the rule behind a figure is printed with it
