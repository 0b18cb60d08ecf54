"""A whole visit with scripts turned off: plain forms, saved by hand, to the printed sheet."""

import re

import pytest
from playwright.sync_api import Page, expect

from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment
from tests.browser.conftest import PHONE, OpenPage, SmallClinic
from tests.browser.sheet import sheet_text
from tests.browser.shots import shot
from tests.browser.steps import open_folds, sign_in
from tests.browser.watch import Watch

pytestmark = pytest.mark.browser

TYPED = {
    "system-opening_length_mm": "38",
    "system-opening_width_mm": "36",
    "stoma-length_mm": "30",
    "stoma-width_mm": "28",
    "stoma-protrusion_mm": "12",
}
PRESSED = {
    "system-profile": "flat",
    "system-pieces": "one_piece",
    "stoma-junction": "intact",
    "skin-state": "findings",
    "abdomen-creases": "none",
}


def press(page: Page, value: str) -> None:
    page.locator(f'button[name=press][value="{value}"]:not(.visually-hidden)').click()


def start(page: Page, clinic: SmallClinic) -> None:
    sign_in(page, clinic.url, clinic.nurse)
    page.locator("#find-box").fill("wintergren")
    page.get_by_role("button", name="Find", exact=True).click()
    page.locator(".people a").first.click()
    page.get_by_role("button", name=re.compile("^Start")).click()


def tick_hours(page: Page, field: str, *hours: int) -> None:
    for hour in hours:
        page.locator(f'input[name$="{field}"][value="{hour}"]').check()


def chart(page: Page) -> None:
    open_folds(page)
    for name, text in TYPED.items():
        page.locator(f"[name={name}]").fill(text)
    for name, value in PRESSED.items():
        page.locator(f'input[name="{name}"][value="{value}"]').check()
    tick_hours(page, "system-erosion_hours", 5, 6, 7)
    page.locator('[name="whole-not_looked_at"][value="output"]').check()
    press(page, "add-finding")
    page.locator('[name^="finding-"][name$="-kind"]').select_option("erosion")
    tick_hours(page, "-hours", 5, 6)


def test_whole_visit_without_scripts(
    small_clinic: SmallClinic, open_page: OpenPage, watch: Watch
) -> None:
    """On the narrow screen, where more can be out of reach."""
    watch.expected = ("status of 422",)  # the page with its errors
    page = open_page(java_script_enabled=False, viewport=PHONE)
    start(page, small_clinic)
    chart(page)
    open_folds(page)
    page.locator('[name^="finding-"][name$="-outer_mm"]').fill("2o")
    page.locator("[name=stoma-widest_mm]").fill("999")
    press(page, "plan")
    expect(page.locator(".error-summary")).to_be_visible()
    assert_kept_with_its_error(page, "-outer_mm", "2o", "Write a number")
    assert_kept_with_its_error(page, "stoma-widest_mm", "999", "At most 300 mm")
    shot(page, "without-scripts-errors")
    page.locator('[name^="finding-"][name$="-outer_mm"]').fill("20")
    page.locator("[name=stoma-widest_mm]").fill("")
    press(page, "plan")
    expect(page.locator("#plan .card").first).to_be_visible()
    press(page, "accept-rest")
    expect(page.locator(".plan-count")).to_have_text("All decided")
    shot(page, "without-scripts-accepted")
    press(page, "sign")
    page.wait_for_url(re.compile(r"/visits/[0-9a-f-]{36}/$"))
    assert "B000417" in sheet_text(page)
    charted = Assessment.objects.get(stoma=small_clinic.stoma)
    assert charted.visit.state == VisitState.SIGNED
    assert charted.skin_findings.get().hours == [5, 6]
    assert charted.measurement.protrusion_mm == 12


def assert_kept_with_its_error(page: Page, field: str, typed: str, words: str) -> None:
    """The box still shows what was typed, and its own wrapper says what is wrong."""
    box = page.locator(f'input[name$="{field}"]')
    expect(box).to_have_value(typed)
    expect(box).to_have_attribute("aria-invalid", "true")
    wrapper = page.locator(".field", has=box)
    expect(wrapper.locator(".field-error")).to_contain_text(words)


def test_removing_a_row_without_scripts(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    draft = small_clinic.draft(leaking=True)
    page = open_page(small_clinic.nurse, java_script_enabled=False)
    page.goto(small_clinic.chart_url(draft))
    page.locator('[name^="finding-"][name$="-remove"]').check()
    page.locator('input[name="skin-state"][value="intact"]').check()
    press(page, "plan")
    expect(page.locator('[name^="finding-"][name$="-kind"]')).to_have_count(0)
    assert not draft.skin_findings.exists()
