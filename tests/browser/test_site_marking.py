"""A site is marked on the drawing by touch, by keyboard, and, without scripts, by numbers."""

import pytest
from playwright.sync_api import Page, expect

from clinic.site_marking.models import MarkedSite
from tests.browser.conftest import PHONE, OpenPage, SmallClinic

pytestmark = pytest.mark.browser


def opened(small_clinic: SmallClinic, open_page: OpenPage, **options: object) -> Page:
    page = open_page(small_clinic.nurse, **options)
    page.goto(f"{small_clinic.url}/site-marking/of/{small_clinic.patient.uuid}/add/")
    return page


def record(page: Page) -> MarkedSite:
    page.locator("[name=marked_on]").fill("10 Mar 2024")
    page.locator("[name=marked_by]").fill("R. Quill, stoma nurse")
    page.get_by_role("button", name="Record the marking").click()
    expect(page.locator("h1")).to_contain_text("Site marking of 10 Mar 2024")
    return MarkedSite.objects.get()


def test_a_tap_marks_the_place_and_chooses_the_quadrant(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = opened(small_clinic, open_page, viewport=PHONE, has_touch=True)
    drawing = page.locator("svg[data-drawing]").first
    mark = drawing.locator("[data-mark]")
    expect(mark).to_be_hidden()
    box = drawing.bounding_box()
    assert box is not None
    drawing.tap(position={"x": box["width"] * 160 / 240, "y": box["height"] * 170 / 260})
    expect(mark).to_be_visible()
    site = record(page)
    assert site.quadrant == "left lower"
    assert site.place_x == pytest.approx(40, abs=1)
    assert site.place_y == pytest.approx(-40, abs=1)


def test_arrow_keys_move_the_mark(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    page = opened(small_clinic, open_page)
    page.locator("svg[data-drawing]").first.focus()
    for key in ("Shift+ArrowLeft", "Shift+ArrowLeft", "ArrowLeft", "Shift+ArrowUp"):
        page.keyboard.press(key)
    expect(page.locator("[data-place]").first).to_have_text(
        "On the drawing: 22 to the patient's right, 10 up from the navel."
    )
    site = record(page)
    assert (site.quadrant, site.place_x, site.place_y) == ("right upper", -22, 10)


def test_without_scripts_the_numbers_are_typed(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = opened(small_clinic, open_page, java_script_enabled=False)
    page.locator("summary", has_text="by numbers").first.click()
    page.locator("[name=place_x_1]").fill("-40")
    page.locator("[name=place_y_1]").fill("-30")
    page.locator("[name=quadrant_1][value='right lower']").check(force=True)
    site = record(page)
    assert (site.quadrant, site.place_x, site.place_y) == ("right lower", -40, -30)
