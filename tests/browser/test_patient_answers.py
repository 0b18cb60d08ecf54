"""The clinic's own questions: out of sight until asked for, answered, seen on the trend."""

import pytest
from playwright.sync_api import expect

from clinic.patient_answers.models import PatientAnswers
from clinic.patient_answers.questions import NOT_VALIDATED
from tests.browser.conftest import PHONE, OpenPage, SmallClinic
from tests.browser.steps import open_all
from tests.browser.watch import Watch
from tests.clinic.plans.signed_visits import accept, sign

pytestmark = pytest.mark.browser


def test_asked_at_a_visit_and_seen_on_the_trend(
    small_clinic: SmallClinic, open_page: OpenPage, watch: Watch
) -> None:
    # A refused form is answered so.
    watch.expected = ("422",)
    draft = small_clinic.draft(leaking=True, output__pain_0_10=4)
    page = open_page(small_clinic.nurse, viewport=PHONE)
    page.goto(small_clinic.chart_url(draft))
    page.wait_for_selector("body.scripted")
    link = page.get_by_role("link", name="Ask the clinic's own questions")
    expect(link).to_be_hidden()
    open_all(page)
    expect(link).to_be_visible()
    address = link.get_attribute("href")
    assert address is not None

    page.goto(f"{small_clinic.url}{address}")
    expect(page.locator("main")).to_contain_text(NOT_VALIDATED)
    expect(page.locator("main")).to_contain_text("It is not asked twice")
    expect(page.locator("[name=pain]")).to_have_count(0)
    page.locator("[name=how][value=asked]").check(force=True)
    page.locator("[name=worry]").fill("11")
    page.locator("[name=sure]").fill("7")
    page.get_by_role("button", name="Save the answers").click()
    expect(page.locator("#div_id_worry")).to_contain_text("At most 10")
    page.locator("[name=worry]").fill("9")
    page.get_by_role("button", name="Save the answers").click()
    expect(page.get_by_text("9 of 10")).to_be_visible()
    row = PatientAnswers.objects.get()
    assert (row.pain, row.itching, row.worry, row.sure) == (None, None, 9, 7)

    accept(draft)
    sign(draft)
    page.goto(f"{small_clinic.url}/trends/{small_clinic.stoma.uuid}/")
    answers = page.get_by_role("region", name="What the person says")
    expect(answers).to_contain_text("9 of 10")
    expect(answers).to_contain_text("4 of 10")
    expect(answers).not_to_contain_text("Itching")
    expect(page.locator("svg").filter(has_text="Worry about leaks")).to_be_visible()
