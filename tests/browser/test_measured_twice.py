"""Two nurses measure the same stoma at one visit, the second without seeing the first's figures."""

import pytest
from django.utils import timezone
from playwright.sync_api import expect

from clinic.repeats.models import RepeatMeasurement
from clinic.visits.models import StomaMeasurement
from tests.browser.conftest import PHONE, OpenPage, SmallClinic
from tests.browser.steps import open_all
from tests.browser.watch import Watch

pytestmark = pytest.mark.browser


def test_a_second_nurse_measures_again(
    small_clinic: SmallClinic, open_page: OpenPage, watch: Watch
) -> None:
    # A refused form is answered so.
    watch.expected = ("422",)
    draft = small_clinic.draft(leaking=True, measurement__length_mm=37.3)
    draft.visit.happened_at = timezone.now()
    draft.visit.save()
    before = StomaMeasurement.objects.values().get()
    second = small_clinic.colleague()

    # Out of sight on the visit page until More is pressed.
    chart = open_page(small_clinic.nurse)
    chart.goto(small_clinic.chart_url(draft))
    chart.wait_for_selector("body.scripted")
    link = chart.get_by_role("link", name="Measure again, a second nurse")
    expect(link).to_be_hidden()
    open_all(chart)
    expect(link).to_be_visible()

    page = open_page(second, viewport=PHONE)
    page.goto(small_clinic.url)
    page.get_by_role("link", name="Measure again").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Measure again")
    expect(page.locator("body")).not_to_contain_text("37.3")
    page.get_by_label("Who took the visit's own figures?").select_option(
        label=small_clinic.nurse.display_name
    )
    page.locator("[name=known_before][value=no]").check(force=True)
    page.locator("[name=posture][value=same]").check(force=True)
    page.locator("[name=length_mm]").fill("minus")
    page.locator("[name=width_mm]").fill("28")
    page.get_by_role("button", name="Save the repeat").click()
    expect(page.locator("#div_id_length_mm")).to_contain_text("Write a number")
    page.locator("[name=length_mm]").fill("38.5")
    page.get_by_role("button", name="Save the repeat").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Measured twice")
    readings = page.get_by_role("row", name="Length")
    for words in ("37.3 mm", "38.5 mm", "1.2 mm"):
        expect(readings).to_contain_text(words)
    assert RepeatMeasurement.objects.get().measured_by == second
    assert StomaMeasurement.objects.values().get() == before

    page.get_by_role("link", name="Withdraw").click()
    page.locator("[name=why][value=mistake]").check(force=True)
    page.get_by_role("button", name="Withdraw").click()
    expect(page.get_by_text("Withdrawn:")).to_be_visible()
