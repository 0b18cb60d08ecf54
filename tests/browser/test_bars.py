"""Bars that stay in place cover nothing that has the focus, nor most of an enlarged page."""

from pathlib import Path

import pytest
from django.urls import reverse
from playwright.sync_api import Page, ViewportSize

from clinic.visits.models import Assessment
from tests.browser.conftest import DESK, PHONE, OpenPage, SmallClinic
from tests.browser.steps import open_all
from tests.clinic.plans.signed_visits import accept, sign

pytestmark = pytest.mark.browser

COVERED = (Path(__file__).parent / "covered.js").read_text()
#: A window of 1280 × 900 at 200 % and at 400 %, in CSS pixels.
DOUBLE = ViewportSize(width=640, height=450)
FOURFOLD = ViewportSize(width=320, height=225)
#: The part of the window's height that bars take, scrolled to the middle of the page.
TAKEN = """() => {
  window.scrollTo(0, document.documentElement.scrollHeight / 2);
  const taken = new Set();
  for (const e of document.body.querySelectorAll("*")) {
    if (!/sticky|fixed/.test(getComputedStyle(e).position) || !e.checkVisibility()) continue;
    const { top, bottom } = e.getBoundingClientRect();
    const end = Math.min(innerHeight, bottom);
    for (let y = Math.max(0, Math.round(top)); y < end; y += 1) taken.add(y);
  }
  return taken.size / innerHeight;
}"""

#: Scrolled there: the lower edge of the plan's own bar, the upper edge of the bar at the foot.
ENDS = """async (y) => {
  window.scrollTo(0, y);
  for (let i = 0; i < 2; i += 1) await new Promise(requestAnimationFrame);
  const box = (name) => document.querySelector(name).getBoundingClientRect();
  return [box(".plan-accept").bottom, box(".chart-bar").top];
}"""


@pytest.fixture
def danger(small_clinic: SmallClinic) -> Assessment:
    """A draft with an emergency, after a signed visit."""
    seen = small_clinic.draft(leaking=True)
    accept(seen)
    sign(seen)
    return small_clinic.draft(leaking=True, measurement__colour="black_brown_grey")


@pytest.fixture
def pages(danger: Assessment, small_clinic: SmallClinic) -> list[str]:
    """The visit page, the record, the trend and the day."""
    return [
        reverse("charting:chart", args=[danger.uuid]),
        reverse("patients:record", args=[small_clinic.patient.uuid]),
        reverse("trends:stoma", args=[small_clinic.stoma.uuid]),
        reverse("clinic_day:day"),
    ]


def opened(page: Page, address: str) -> None:
    page.goto(address)
    if "/chart/" in address:
        page.wait_for_selector("body.scripted")


def test_nothing_that_has_the_focus_is_covered(
    small_clinic: SmallClinic, open_page: OpenPage, pages: list[str]
) -> None:
    page = open_page(small_clinic.nurse)
    found = []
    for path in pages:
        opened(page, small_clinic.url + path)
        for size in (DESK, PHONE, DOUBLE):
            page.set_viewport_size(size)
            page.evaluate("window.scrollTo(0, 0)")
            result = page.evaluate(COVERED)
            assert result["focused"] > 10
            found += [f"{path} at {size['width']} px: {what}" for what in result["covered"]]
        page.set_viewport_size(DESK)
    assert found == []


def test_an_enlarged_page_is_not_all_bars(
    small_clinic: SmallClinic, open_page: OpenPage, pages: list[str]
) -> None:
    page = open_page(small_clinic.nurse)
    for path in pages:
        opened(page, small_clinic.url + path)
        for size in (DOUBLE, FOURFOLD):
            page.set_viewport_size(size)
            assert page.evaluate(TAKEN) <= 0.4, (path, size)
            assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
        page.set_viewport_size(DESK)


def test_the_plan_ends_above_the_bar_at_the_foot(
    small_clinic: SmallClinic, open_page: OpenPage, danger: Assessment
) -> None:
    """Accepting is one press away before anyone scrolls, an alarm in the bar or not."""
    page = open_page(small_clinic.nurse)
    opened(page, small_clinic.chart_url(danger))
    open_all(page)
    for place in (0, 900):
        plan, bar = page.evaluate(ENDS, place)
        assert plan <= bar + 1, place
    alarm = page.locator("#alarm a").bounding_box()
    assert alarm is not None
    page.set_viewport_size(FOURFOLD)
    alarm = page.locator("#alarm a").bounding_box()
    assert alarm is not None
    assert alarm["y"] + alarm["height"] == pytest.approx(FOURFOLD["height"], abs=1)
