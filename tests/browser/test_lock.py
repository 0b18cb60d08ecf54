"""The screen locked and unlocked: nothing of the page is seen, nothing typed is lost."""

import pytest
from playwright.sync_api import Page, expect

from clinic.visits.models import Assessment
from tests.browser.conftest import OpenPage, SmallClinic, session_of
from tests.browser.shots import shot
from tests.browser.steps import open_all
from tests.browser.watch import Watch
from tests.factories.accounts import PASSWORD

pytestmark = pytest.mark.browser

NOTE = "Rope burn from the garden gate"
#: Whether the focus is on something of the page beneath.
BENEATH = "document.querySelectorAll('body > :not(.lock-cover) :focus').length"


def lock(page: Page) -> None:
    page.get_by_role("button", name="Lock", exact=True).click()
    expect(page.get_by_label("Your password")).to_be_focused()


def unlock(page: Page, password: str = PASSWORD) -> None:
    page.get_by_label("Your password").fill(password)
    page.get_by_role("button", name="Unlock").click()


def led_to(page: Page, address: str) -> str:
    """Where the server leads a request of this browser."""
    return str(page.evaluate("async (to) => (await fetch(to)).url", address))


def test_lock_and_unlock_a_visit_being_charted(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    draft = small_clinic.draft()
    page = open_page(small_clinic.nurse)
    page.goto(small_clinic.chart_url(draft))
    second = page.context.new_page()
    second.goto(f"{small_clinic.url}/patients/{small_clinic.patient.uuid}/contacts/")
    box = second.locator("main input[type=text]").first
    box.fill("Typed, not saved")
    open_all(page)
    note = page.locator("[name=visit-note]")
    note.fill(NOTE)
    lock(page)
    shot(page, "locked", whole=False)
    # What was typed a moment ago is with the server, which opens nothing more, in no tab.
    assert Assessment.objects.get(pk=draft.pk).visit.note == NOTE
    record = f"/patients/{small_clinic.patient.uuid}/"
    assert "/sign-in/locked/" in led_to(page, record)
    expect(second.get_by_label("Your password")).to_be_visible()
    for one in (page, second):
        assert "Wintergreen" not in one.title()
        assert not one.get_by_text("Wintergreen").first.is_visible()
    for _ in range(4):
        page.keyboard.press("Tab")
        assert page.evaluate(BENEATH) == 0
    unlock(page, "not the password")
    expect(page.get_by_role("alert")).to_have_text("This is not your password.")
    unlock(page)
    expect(note).to_have_value(NOTE)
    expect(note).to_be_visible()
    expect(box).to_have_value("Typed, not saved")
    expect(box).to_be_visible()
    note.fill(NOTE + "!")
    expect(page.locator("#save-status")).to_have_attribute("data-state", "saved")
    assert record in led_to(page, record)


def test_another_signs_in_and_the_page_waits_for_its_own(
    small_clinic: SmallClinic, open_page: OpenPage, watch: Watch
) -> None:
    watch.expected = ("status of 403",)  # a password sent while the session changes
    page = open_page(small_clinic.nurse)
    page.goto(f"{small_clinic.url}/patients/{small_clinic.patient.uuid}/contacts/")
    box = page.locator("main input[type=text]").first
    box.fill("Typed, not saved")
    page.keyboard.press("Alt+Shift+KeyL")
    expect(page.get_by_label("Your password")).to_be_focused()
    with page.context.expect_page() as opened:
        page.get_by_role("button", name="Sign in as someone else").click()
    expect(opened.value.get_by_role("heading", level=1)).to_have_text("Sign in")
    unlock(page)
    expect(page.get_by_role("status").last).to_contain_text("Signed out.")
    page.context.add_cookies([session_of(small_clinic.colleague(), small_clinic.url)])
    page.get_by_role("button", name="Try again").click()
    expect(page.get_by_role("status").last).to_contain_text("Someone else is signed in")
    expect(box).to_be_hidden()
    page.context.add_cookies([session_of(small_clinic.nurse, small_clinic.url)])
    page.get_by_role("button", name="Try again").click()
    unlock(page)
    expect(box).to_have_value("Typed, not saved")
    expect(box).to_be_visible()
