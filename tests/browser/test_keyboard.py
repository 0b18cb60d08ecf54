"""A whole visit by keyboard alone, from signing in to the sheet; and the order of the stops."""

import re
import time

import pytest
from playwright.sync_api import expect

from clinic.visits.choices import SectionKey, VisitState
from clinic.visits.models import Assessment
from tests.browser.conftest import OpenPage, SmallClinic
from tests.browser.face import FACE
from tests.browser.keys import Keys
from tests.browser.sheet import sheet_text
from tests.browser.shots import shot
from tests.browser.steps import days_ago, wait_until_saved
from tests.factories.accounts import PASSWORD

pytestmark = pytest.mark.browser


def sign_in_and_find(keys: Keys, clinic: SmallClinic) -> None:
    """To the patient's record; the name is mistyped, as names are."""
    keys.page.goto(f"{clinic.url}/")
    keys.enter("#id_login", clinic.nurse.username)
    keys.enter("#id_password", PASSWORD)
    keys.press("Enter")
    expect(keys.page.get_by_role("heading", name="Due")).to_be_visible()
    keys.enter("#find-box", "wintergren")
    keys.press("Enter")
    keys.page.wait_for_url("**/patients/results/")
    keys.tab_to(".people a")
    keys.press("Enter")
    keys.page.wait_for_url(f"**/{clinic.patient.uuid}/")


def start_visit(keys: Keys) -> None:
    keys.tab_to("main form[action^='/visits/start/'] button")
    keys.press("Enter")
    keys.page.wait_for_url("**/chart/**")
    keys.answer("visit-reason", "leak")


def chart_wear(keys: Keys) -> None:
    # The one part that was not looked at, closed by one key.
    keys.tab_to('[name="whole-not_looked_at"][value="output"]')
    keys.press("Space")
    keys.tab_to('[data-add-row="wear"]')
    keys.press("Enter")
    keys.type(days_ago(4))
    keys.enter('[name$="-off"]', days_ago(1))
    keys.pick('[name$="-reason"]:not([name^="visit"])', "Leak")


def chart_system(keys: Keys) -> None:
    """A leak opens the back of the barrier; what is worn is opened by hand."""
    keys.tick("system-erosion_hours", "5", "6", "7")
    keys.tick("system-leak_hours", "6")
    keys.tab_to("#q-worn summary")
    keys.press("Enter")
    keys.answer("system-pieces", "one_piece")
    keys.answer("system-profile", "flat")
    keys.answer("system-opening_kind", "cut_to_fit")
    keys.enter("[name=system-opening_length_mm]", "38")
    keys.enter("[name=system-opening_width_mm]", "36")
    keys.answer("system-pouch", "drainable")
    keys.tick("system-accessories", "none")


def chart_stoma(keys: Keys) -> None:
    keys.enter("[name=stoma-length_mm]", "30")
    keys.enter("[name=stoma-width_mm]", "28")
    keys.enter("[name=stoma-protrusion_mm]", "12")
    keys.tab_to('[value="quick-looks"]')
    keys.press("Enter")
    keys.answer("stoma-lumen", "centre")


def paint_skin(keys: Keys) -> None:
    """Raw skin from 5 to 7, 20 mm out, on the drawn face; then back into its row."""
    keys.tab_to("#skin .paint")
    keys.press("Enter")
    keys.pick("#face-kind", "Raw")
    keys.press("Enter")
    assert keys.is_at(FACE)
    keys.press("Space")
    keys.press("ArrowUp")
    keys.press("ArrowLeft")
    keys.press("Space")
    keys.press("ArrowRight", 2)
    keys.press("Space")
    keys.press("Escape")
    keys.pick('[name$="-burning"]', "Y")


def chart_the_rest(keys: Keys) -> None:
    keys.answer("abdomen-contour", "rounded")
    keys.answer("abdomen-firmness", "soft")
    keys.tab_to('[value="quick-beside"]')
    keys.press("Enter")
    keys.enter("[name=visit-note]", "Came in early.")


def accept_and_sign(keys: Keys) -> None:
    # The plan of the last entries is there.
    expect(keys.page.locator("#accept-rest")).to_be_enabled()
    keys.tab_to('[value="accept-rest"]')
    wait_until_saved(keys.page)
    keys.press("Enter")
    expect(keys.page.locator(".plan-count")).to_have_text("All decided")
    keys.tab_to('a[href="#finish"]')
    keys.press("Enter")
    keys.tab_to('[value="sign"]')
    keys.press("Enter")
    keys.page.wait_for_url(re.compile(r"/visits/[0-9a-f-]{36}/$"))


def test_whole_visit_by_keyboard(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    keys = Keys(open_page())
    begun = time.monotonic()
    sign_in_and_find(keys, small_clinic)
    start_visit(keys)
    chart_wear(keys)
    chart_system(keys)
    chart_stoma(keys)
    paint_skin(keys)
    chart_the_rest(keys)
    shot(keys.page, "keyboard-charted")
    accept_and_sign(keys)
    shot(keys.page, "keyboard-signed")
    keys.tab_to('a[href*="care-sheet"][href*="preview"]')
    text = sheet_text(keys.page)
    print(f"\nBy keyboard: {keys.count} presses, {time.monotonic() - begun:.1f} s to the sheet")
    assert "Wintergreen" in text
    assert "B000417" in text
    charted = Assessment.objects.get(stoma=small_clinic.stoma)
    assert charted.visit.state == VisitState.SIGNED
    assert charted.not_looked_at == [SectionKey.OUTPUT]
    assert charted.system.erosion_hours == [5, 6, 7]
    assert charted.measurement.protrusion_mm == 12
    painted = charted.skin_findings.get()
    assert (painted.kind, painted.hours, painted.burning) == ("erosion", [5, 6, 7], True)
    assert (painted.inner_mm, painted.outer_mm) == (0, 20)
    assert charted.wear_rows.get().days == 3


def test_stops_follow_the_page(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    """Tab passes through every part once, in their order on the page."""
    draft = small_clinic.draft(leaking=True)
    page = open_page(small_clinic.nurse)
    page.goto(small_clinic.chart_url(draft))
    keys = Keys(page)
    keys.tab_to("#visit [data-open-all]")
    parts: list[str] = []
    for _ in range(300):
        keys.press("Tab")
        part = keys.where().split(":")[0]
        if part == "page":
            break
        if part not in parts[-1:]:
            parts.append(part)
    before, after = ["visit", "output", "wear", "system", "stoma"], ["abdomen", "closing"]
    # The face is in the skin part, above its findings.
    assert parts == [*before, "skin", "face", "skin", *after, "plan", "papers", "chart-bar"]
