"""Entries kept on a device: only their author sees them, and they are never dropped unread."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.clock_face_strokes import open_draft
from tests.browser.conftest import OpenPage, SmallClinic, session_of
from tests.browser.shots import shot
from tests.browser.steps import open_all, wait_until_saved
from tests.browser.watch import Watch

pytestmark = pytest.mark.browser

NOTE = "Rope burn from the garden gate"
PLACES = "Object.keys(localStorage)"
CUT = ("ERR_INTERNET_DISCONNECTED", "status of 500", "status of 409")


def keep_a_note(page: Page) -> list[str]:
    """Typed while nothing reaches the server; then the page is closed. Where it is kept."""
    page.context.set_offline(True)
    page.locator("[name=visit-note]").fill(NOTE)
    page.locator('[name="stoma-turgor"][value="hard"]').check(force=True)
    expect(page.locator("#save-status")).to_have_attribute("data-state", "lost")
    page.wait_for_function("() => localStorage.length === 1")
    places: list[str] = page.evaluate(PLACES)
    page.close()
    page.context.set_offline(False)
    return places


def test_a_colleague_takes_nothing_away(
    small_clinic: SmallClinic, open_page: OpenPage, watch: Watch
) -> None:
    """She charts the same draft on the same device; what the first nurse left is still there."""
    watch.expected = CUT
    draft = small_clinic.draft()
    page = open_draft(small_clinic, open_page, draft)
    context = page.context
    kept = keep_a_note(page)
    context.add_cookies([session_of(small_clinic.colleague(), small_clinic.url)])
    hers = watch.page(context.new_page())
    hers.goto(small_clinic.chart_url(draft))
    hers.wait_for_selector("body.scripted")
    hers.locator("[name=visit-note]").fill("Quiet day")
    wait_until_saved(hers)
    assert hers.evaluate(PLACES) == kept
    hers.close()
    context.add_cookies([session_of(small_clinic.nurse, small_clinic.url)])
    again = watch.page(context.new_page())
    again.goto(small_clinic.chart_url(draft))
    again.get_by_role("link", name="See both versions").first.click()
    expect(again.locator("fieldset.difference").first).to_contain_text("Rope burn")
    assert again.evaluate(PLACES) == []


def test_what_the_server_refuses_is_shown_in_words(
    small_clinic: SmallClinic, open_page: OpenPage, watch: Watch
) -> None:
    watch.expected = CUT
    draft = small_clinic.draft()
    page = open_draft(small_clinic, open_page, draft)
    context = page.context
    kept = keep_a_note(page)
    context.route("**/save/", lambda route: route.fulfill(status=500), times=1)
    again = watch.page(context.new_page())
    again.goto(small_clinic.chart_url(draft))
    notice = again.locator("#page-notice")
    expect(notice).to_contain_text(f"Note: {NOTE}")
    expect(notice).to_contain_text("Hard")
    shot(again, "not-put-back", whole=False)
    open_all(again)
    again.locator("[name=visit-reason_words]").fill("typed on")  # the page takes entries again
    wait_until_saved(again)
    assert again.evaluate(PLACES) == kept
    again.reload()
    expect(again.get_by_role("link", name="See both versions").first).to_be_visible()
    assert again.evaluate(PLACES) == []


def test_forgotten_on_a_press(small_clinic: SmallClinic, open_page: OpenPage, watch: Watch) -> None:
    watch.expected = CUT
    draft = small_clinic.draft()
    page = open_draft(small_clinic, open_page, draft)
    context = page.context
    keep_a_note(page)
    context.route("**/save/", lambda route: route.fulfill(status=500), times=1)
    again = watch.page(context.new_page())
    again.goto(small_clinic.chart_url(draft))
    again.get_by_role("button", name="I have entered it").click()
    expect(again.locator("#page-notice")).to_be_empty()
    assert again.evaluate(PLACES) == []
