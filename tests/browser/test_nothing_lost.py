"""Nothing typed is lost: the server dies, the network goes, one leaves, one is signed out."""

import time
from collections.abc import Callable, Iterator
from contextlib import suppress

import pytest
from django.db import connection
from playwright.sync_api import Browser, Error, Page, expect

from clinic.visits.models import Assessment
from tests.browser.conftest import PHONE, OpenPage, SmallClinic, session_of
from tests.browser.own_server import OwnServer, address_of
from tests.browser.shots import shot
from tests.browser.steps import open_all, sign_in, wait_until_saved
from tests.browser.watch import Watch

pytestmark = pytest.mark.browser

WORDS = "Leaks when bending"
NOTE = "Rope burn from the garden gate"
SIZE = "[name=stoma-length_mm]"
#: What is kept here, as the page itself can read it.
OPENED = """async () => {
  const { Sealed } = await import("/static/js/sealed.js");
  const sealed = new Sealed(document.getElementById("chart-form"), "another page");
  return (await sealed.earlier()).map(({ body }) => body).join(" ");
}"""
KEPT_HERE = "Object.values(localStorage).join(' ') + Object.values(sessionStorage).join(' ')"


def open_chart(page: Page, clinic: SmallClinic, draft: Assessment) -> None:
    page.goto(clinic.chart_url(draft))
    page.wait_for_selector("body.scripted")


def type_in(page: Page, name: str, text: str) -> None:
    box = page.locator(f"[name={name}]")
    if not box.is_visible():
        open_all(page)
    box.fill(text)


def leave(page: Page, clinic: SmallClinic) -> None:
    page.goto(f"{clinic.url}/patients/{clinic.patient.uuid}/")


def eventually(is_so: Callable[[], bool]) -> None:
    """A save sent on leaving is answered to no one; it takes its time."""
    for _ in range(50):
        if is_so():
            return
        time.sleep(0.1)
    raise AssertionError("It was not saved.")


def nothing_is_kept(page: Page) -> bool:
    """Whether all is with the server; False too while the page reloads."""
    with suppress(Error):
        return bool(page.evaluate("localStorage.length") == 0)
    return False


def expect_not_saved(page: Page) -> None:
    expect(page.locator("#save-status")).to_have_attribute("data-state", "lost")


def stored(draft: Assessment) -> Assessment:
    return Assessment.objects.select_related("visit").get(pk=draft.pk)


@pytest.fixture
def own_server(small_clinic: SmallClinic) -> Iterator[OwnServer]:
    server = OwnServer(address_of(connection.settings_dict["NAME"]))
    server.start()
    yield server
    server.kill()


def served_chart(
    browser: Browser, server: OwnServer, clinic: SmallClinic, draft: Assessment
) -> Page:
    """The draft's page from a server that goes away: its errors are not watched."""
    context = browser.new_context()
    context.add_cookies([session_of(clinic.nurse, server.url)])
    page = context.new_page()
    page.goto(f"{server.url}/visits/chart/{draft.uuid}/")
    return page


def test_server_killed_while_typing(
    small_clinic: SmallClinic, own_server: OwnServer, browser: Browser
) -> None:
    draft = small_clinic.draft()
    page = served_chart(browser, own_server, small_clinic, draft)
    type_in(page, "visit-reason_words", WORDS)
    wait_until_saved(page)
    own_server.kill()
    type_in(page, "stoma-length_mm", "31.5")
    expect_not_saved(page)
    type_in(page, "visit-note", NOTE)
    shot(page, "server-gone", whole=False)
    assert NOTE not in page.evaluate(KEPT_HERE)
    own_server.start()
    wait_until_saved(page)
    assert page.evaluate("localStorage.length") == 0
    page.context.close()
    saved = stored(draft)
    assert saved.visit.reason_words == WORDS
    assert saved.visit.note == NOTE
    assert saved.measurement.length_mm == 31.5


NO_ROOM = """
    CREATE FUNCTION no_room() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN RAISE EXCEPTION 'could not extend file' USING ERRCODE = 'disk_full'; END $$;
    CREATE TRIGGER no_room BEFORE INSERT OR UPDATE ON visits_stomameasurement
    FOR EACH ROW EXECUTE FUNCTION no_room()
"""
ROOM_AGAIN = "DROP TRIGGER no_room ON visits_stomameasurement; DROP FUNCTION no_room()"


def test_database_restarts_and_then_its_disk_is_full(
    small_clinic: SmallClinic, own_server: OwnServer, browser: Browser
) -> None:
    """A restart ends every connection; a full disk refuses what is written and reads as before."""
    draft = small_clinic.draft()
    page = served_chart(browser, own_server, small_clinic, draft)
    type_in(page, "stoma-length_mm", "27")
    wait_until_saved(page)
    with connection.cursor() as cursor:
        cursor.execute(
            "SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity "
            "WHERE datname = current_database() AND pid <> pg_backend_pid()"
        )
        assert cursor.fetchone()[0] > 0
    type_in(page, "stoma-length_mm", "28")
    wait_until_saved(page)
    assert stored(draft).measurement.length_mm == 28
    with connection.cursor() as cursor:
        cursor.execute(NO_ROOM)
    type_in(page, "stoma-length_mm", "29")
    expect_not_saved(page)
    assert stored(draft).measurement.length_mm == 28
    with connection.cursor() as cursor:
        cursor.execute(ROOM_AGAIN)
    wait_until_saved(page)
    page.context.close()
    assert stored(draft).measurement.length_mm == 29


def test_page_lost_while_offline(
    small_clinic: SmallClinic, open_page: OpenPage, watch: Watch
) -> None:
    """Typed without a connection, the page gone too; opened again, the entries are put back."""
    watch.expected = ("ERR_INTERNET_DISCONNECTED",)
    draft = small_clinic.draft()
    page = open_page(small_clinic.nurse)
    open_chart(page, small_clinic, draft)
    page.context.set_offline(True)
    type_in(page, "visit-note", NOTE)
    type_in(page, "stoma-length_mm", "29")
    expect_not_saved(page)
    page.locator('[data-add-row="finding"]').click()
    page.locator('[name$="-kind"]').select_option("ulcer")
    page.locator('[name^="finding-"][value="6"]').check()
    page.wait_for_timeout(1000)  # longer than the pause after which it is kept
    kept = page.evaluate(KEPT_HERE)
    assert kept
    assert not any(words in kept for words in (NOTE, "garden", "ulcer", "visit-note", "29&"))
    opened = page.evaluate(OPENED)
    assert "garden" in opened
    # No token is kept, not even sealed: one is put in when it is sent.
    assert "csrfmiddlewaretoken" not in opened
    page.close()
    page.context.set_offline(False)
    assert stored(draft).visit.note == ""
    again = watch.page(page.context.new_page())
    open_chart(again, small_clinic, draft)
    expect(again.locator("#save-status")).to_contain_text("restored")
    expect(again.locator("[name=visit-note]")).to_have_value(NOTE)
    expect(again.locator(SIZE)).to_have_value("29")
    assert again.evaluate("localStorage.length") == 0
    saved = stored(draft)
    assert saved.visit.note == NOTE
    assert saved.skin_findings.get().hours == [6]


def test_kept_entries_are_only_their_authors(
    small_clinic: SmallClinic, open_page: OpenPage, watch: Watch
) -> None:
    """A colleague on the same browser neither reads nor sends what was kept."""
    watch.expected = ("ERR_INTERNET_DISCONNECTED",)
    draft = small_clinic.draft()
    page = open_page(small_clinic.nurse)
    open_chart(page, small_clinic, draft)
    page.context.set_offline(True)
    type_in(page, "visit-note", NOTE)
    expect_not_saved(page)
    page.close()
    page.context.set_offline(False)
    page.context.add_cookies([session_of(small_clinic.colleague(), small_clinic.url)])
    other = watch.page(page.context.new_page())
    open_chart(other, small_clinic, draft)
    type_in(other, "visit-reason_words", WORDS)
    wait_until_saved(other)
    expect(other.locator("[name=visit-note]")).to_have_value("")
    assert stored(draft).visit.note == ""


def test_leaving_at_once(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    draft = small_clinic.draft()
    page = open_page(small_clinic.nurse)
    open_chart(page, small_clinic, draft)
    type_in(page, "visit-note", NOTE)
    leave(page, small_clinic)
    eventually(lambda: stored(draft).visit.note == NOTE)
    open_chart(page, small_clinic, draft)
    expect(page.locator("[name=visit-note]")).to_have_value(NOTE)
    eventually(lambda: nothing_is_kept(page))
    assert not draft.conflict_copies.exists()


def test_leaving_while_a_save_is_under_way(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    """What was typed after the save had begun goes behind it, and is no conflict with oneself."""
    draft = small_clinic.draft()
    page = open_page(small_clinic.nurse)
    open_chart(page, small_clinic, draft)
    type_in(page, "visit-note", NOTE)
    with page.expect_request("**/save/"):
        pass
    type_in(page, "visit-reason_words", WORDS)
    leave(page, small_clinic)
    eventually(lambda: stored(draft).visit.reason_words == WORDS)
    open_chart(page, small_clinic, draft)
    expect(page.locator("[name=visit-reason_words]")).to_have_value(WORDS)
    expect(page.locator("[name=visit-note]")).to_have_value(NOTE)
    eventually(lambda: nothing_is_kept(page))
    assert not draft.conflict_copies.exists()


def test_signed_out_in_between(
    small_clinic: SmallClinic, open_page: OpenPage, watch: Watch
) -> None:
    """Shown, kept, and saved by itself after signing in again in another tab."""
    watch.expected = ("status of 403",)
    draft = small_clinic.draft()
    page = open_page()
    sign_in(page, small_clinic.url, small_clinic.nurse)
    open_chart(page, small_clinic, draft)
    tab = watch.page(page.context.new_page())
    tab.goto(small_clinic.url)
    tab.get_by_role("button", name="Sign out").click()
    type_in(page, "visit-note", NOTE)
    expect(page.locator("#page-notice")).to_contain_text("You were signed out")
    shot(page, "signed-out", whole=False)
    assert NOTE not in page.evaluate(KEPT_HERE)
    assert stored(draft).visit.note == ""
    sign_in(tab, small_clinic.url, small_clinic.nurse)
    wait_until_saved(page)
    expect(page.locator("#page-notice")).to_be_empty()
    assert stored(draft).visit.note == NOTE


def test_somebody_else_signed_in(
    small_clinic: SmallClinic, open_page: OpenPage, watch: Watch
) -> None:
    """What one nurse typed is not saved under another's name."""
    watch.expected = ("status of 403",)
    draft = small_clinic.draft()
    page = open_page()
    sign_in(page, small_clinic.url, small_clinic.nurse)
    open_chart(page, small_clinic, draft)
    tab = watch.page(page.context.new_page())
    tab.goto(small_clinic.url)
    tab.get_by_role("button", name="Sign out").click()
    sign_in(tab, small_clinic.url, small_clinic.colleague())
    type_in(page, "visit-note", NOTE)
    expect(page.locator("#page-notice")).to_contain_text("Someone else is signed in")
    assert stored(draft).visit.note == ""


def test_a_draft_without_its_date_opens_again(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    """On the narrow screen, where more can be out of reach."""
    draft = small_clinic.draft(leaking=True)
    page = open_page(small_clinic.nurse, viewport=PHONE)
    open_chart(page, small_clinic, draft)
    type_in(page, "visit-happened_at", "")
    type_in(page, "stoma-length_mm", "4O")
    page.locator('label:has(> [name="whole-not_looked_at"][value="output"])').click()
    expect(page.locator("#save-status")).to_have_attribute("data-state", "correct")
    shot(page, "unfinished-typed")
    open_chart(page, small_clinic, draft)
    shot(page, "unfinished-opened")
    for name, words in (
        ("visit-happened_at", "Give the date and time of the visit."),
        ("stoma-length_mm", "Write a number"),
        ("whole-not_looked_at-output", "marked as not looked at"),
    ):
        expect(page.locator(f"#div_id_{name} .field-error")).to_contain_text(words)
    expect(page.locator("[name=stoma-length_mm]")).to_have_value("4O")
    type_in(page, "visit-happened_at", "2025-05-06T09:30")
    type_in(page, "stoma-length_mm", "40")
    page.locator('label:has(> [name="whole-not_looked_at"][value="output"])').click()
    wait_until_saved(page)
    assert not draft.pending.exists()
    assert stored(draft).measurement.length_mm == 40
