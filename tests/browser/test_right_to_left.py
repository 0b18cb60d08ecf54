"""Names and words in a language written from the right, on pages that are English."""

import pytest
from django.urls import reverse
from playwright.sync_api import Locator

from tests.browser.conftest import PHONE, OpenPage, SmallClinic
from tests.browser.shots import shot
from tests.browser.steps import open_all
from tests.clinic.plans.signed_visits import accept, sign

pytestmark = pytest.mark.browser

NAME = "القمر, زيتون"
NOTE = "نامت جيدا. 3 أكياس في اليوم."


def direction(element: Locator) -> str:
    return str(element.first.evaluate("(e) => getComputedStyle(e).direction"))


def test_typed_words_keep_their_direction(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    patient = small_clinic.patient
    patient.family_name, patient.given_name = NAME.split(", ")
    patient.sheet_language = "ar"
    patient.save()
    seen = small_clinic.draft(leaking=True)
    accept(seen)
    sign(seen)
    draft = small_clinic.draft(leaking=True)
    draft.visit.note = NOTE
    draft.visit.save()
    page = open_page(small_clinic.nurse, viewport=PHONE)

    page.goto(small_clinic.chart_url(draft))
    open_all(page)
    assert direction(page.locator("[name=visit-note]")) == "rtl"
    assert direction(page.locator("[name=stoma-length_mm]")) == "ltr"
    shot(page, "rtl-chart", whole=False)

    page.goto(small_clinic.url + reverse("charting:visit", args=[draft.visit.uuid]))
    name = page.locator(".patient-name bdi")
    assert name.inner_text() == NAME
    assert direction(name) == "rtl"
    assert direction(page.locator(".patient-identity")) == "ltr"
    assert direction(page.get_by_text(NOTE)) == "rtl"

    page.goto(small_clinic.url + reverse("documents:preview", args=[seen.uuid]))
    sheet = page.locator(".sheet-preview")
    assert direction(sheet) == "rtl"
    assert direction(page.locator(".step-words p")) == "rtl"
    assert direction(page.locator(".step-tools")) == "ltr"
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    shot(page, "rtl-preview")
