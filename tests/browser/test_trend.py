"""The trend page in a browser: exact values by pointer and by keys, pictures to compare, a phone,
and no scripts at all."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.conftest import DESK, PHONE, OpenPage, SmallClinic
from tests.browser.shots import shot
from tests.browser.test_pages import faults
from tests.clinic.trends.seen_stomas import HEIGHTS, seen
from tests.factories.visits import HAPPENED_AT, AssessmentFactory, PhotoFactory, VisitFactory

pytestmark = pytest.mark.browser


def opened(clinic: SmallClinic, open_page: OpenPage, **options: object) -> Page:
    """The trend of the clinic's stoma, four times seen."""
    seen(clinic.stoma, 4, clinician=clinic.nurse)
    page = open_page(clinic.nurse, **options)
    page.goto(f"{clinic.url}/trends/{clinic.stoma.uuid}/")
    return page


def marks(page: Page, track: str) -> Locator:
    return page.locator(f'.trend-figure:visible .trend-mark[data-track="{track}"]')


def tip(page: Page) -> Locator:
    return page.locator(".trend-figure:visible .trend-tip")


def test_arrows_go_along_a_series_and_say_each_value(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = opened(small_clinic, open_page)
    heights = marks(page, "protrusion")
    heights.last.focus()
    for height in reversed(HEIGHTS):
        expect(tip(page)).to_contain_text(f"protrusion {height} mm")
        expect(page.locator(":focus")).to_have_attribute("data-value", str(height))
        page.keyboard.press("ArrowLeft")
    expect(page.locator(":focus")).to_have_attribute("data-number", "0")  # no further
    page.keyboard.press("End")
    expect(tip(page)).to_contain_text(f"protrusion {HEIGHTS[-1]} mm")
    page.keyboard.press("ArrowDown")
    expect(page.locator(":focus")).to_have_attribute("data-track", "length")
    day = heights.last.get_attribute("data-day")
    expect(page.locator(":focus")).to_have_attribute("data-day", str(day))


def test_each_series_is_one_stop_for_the_tab_key(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = opened(small_clinic, open_page)
    stops = page.locator(".trend-figure.wide .trend-mark[tabindex='0']")
    tracks = stops.evaluate_all("(marks) => marks.map((m) => m.dataset.track)")
    assert len(tracks) == len(set(tracks)) >= 7
    stops.first.focus()
    for track in tracks:
        expect(page.locator(":focus")).to_have_attribute("data-track", track)
        page.keyboard.press("Tab")


def test_what_a_mark_says_stays_can_be_pointed_at_and_goes_with_escape(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    """WCAG 2.2, 1.4.13."""
    page = opened(small_clinic, open_page)
    marks(page, "output").first.hover()
    expect(tip(page)).to_have_text(f"6 May {HAPPENED_AT.year}: output 700 mL/24 h")
    box = tip(page).bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2, steps=4)
    page.wait_for_timeout(600)  # longer than it takes to go away
    expect(tip(page)).to_be_visible()
    page.keyboard.press("Escape")
    expect(tip(page)).to_be_hidden()
    marks(page, "output").last.hover()
    expect(tip(page)).to_be_visible()
    page.mouse.move(2, 2)
    expect(tip(page)).to_be_hidden()


def test_escape_closes_while_the_keys_stay_on_the_mark(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = opened(small_clinic, open_page)
    marks(page, "bars").first.focus()
    expect(tip(page)).to_contain_text("barrier worn 3 days")
    page.keyboard.press("Escape")
    expect(tip(page)).to_be_hidden()
    expect(page.locator(":focus")).to_have_attribute("data-track", "bars")


def test_marks_are_said_once(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    """The browser's own hint would show beside ours."""
    page = opened(small_clinic, open_page)
    assert page.locator(".trend-mark title").count() == 0
    unnamed = page.locator(".trend-mark:not([aria-label])")
    expect(unnamed).to_have_count(0)


def test_a_finger_gets_the_value_on_a_phone(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    page = opened(small_clinic, open_page, viewport=PHONE, has_touch=True)
    expect(page.locator(".trend-figure.wide")).to_be_hidden()
    marks(page, "protrusion").first.tap()
    expect(tip(page)).to_contain_text("protrusion 24 mm")
    box = tip(page).bounding_box()
    assert box is not None
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= PHONE["width"]


@pytest.mark.parametrize("viewport", [DESK, PHONE], ids=["desk", "phone"])
def test_nothing_sideways_unlabelled_or_too_small(
    small_clinic: SmallClinic, open_page: OpenPage, viewport: dict[str, int]
) -> None:
    photos(small_clinic)
    page = opened(small_clinic, open_page, viewport=viewport)
    shot(page, "trend")
    page.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
    page.get_by_role("button", name="Laid over").click()
    assert faults(page, touch=viewport is PHONE) == []
    letters = page.locator(".trend-figure:visible text").first.evaluate(
        "(text) => text.getBoundingClientRect().height"
    )
    assert letters >= 10


# --- pictures -------------------------------------------------------------------------------
def photos(clinic: SmallClinic) -> None:
    """Three visits with a picture each."""
    for number in range(3):
        happened = HAPPENED_AT.replace(day=10 + number)
        visit = VisitFactory.create(patient=clinic.patient, happened_at=happened)
        assessment = AssessmentFactory.create(stoma=clinic.stoma, visit=visit)
        PhotoFactory.create(assessment=assessment)


def seam(page: Page) -> str:
    picture = page.locator('figure[data-side="second"] img')
    found = re.findall(r"[\d.]+%", picture.evaluate("(img) => getComputedStyle(img).clipPath"))
    return found[-1] if found else ""


def test_the_slider_by_keys_and_without_dragging(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    photos(small_clinic)
    page = opened(small_clinic, open_page)
    assert seam(page) == ""
    page.get_by_role("button", name="Laid over").click()
    slider = page.get_by_role("slider")
    slider.focus()
    assert seam(page) == "50%"
    page.keyboard.press("ArrowRight")
    assert seam(page) == "45%"
    page.get_by_role("button", name="Second only").click()
    assert seam(page) in {"0%", ""}
    expect(slider).to_have_value("100")
    page.get_by_role("button", name="First only").click()
    assert seam(page) == "100%"
    boxes = [page.locator(f'figure[data-side="{s}"] img').bounding_box() for s in
             ("first", "second")]  # fmt: skip
    assert boxes[0] == boxes[1]
    page.get_by_role("button", name="Side by side").click()
    assert seam(page) == ""


def test_another_picture_is_chosen_in_place(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    photos(small_clinic)
    page = opened(small_clinic, open_page)
    address = page.url
    page.get_by_label("First picture").select_option(index=1)
    figure = page.locator('figure[data-side="first"]')
    expect(figure.locator("figcaption")).to_contain_text(f"11 May {HAPPENED_AT.year}")
    expect(figure.locator("img")).to_have_attribute("alt", re.compile("11 May"))
    assert figure.locator("img").evaluate("(img) => img.decode().then(() => img.naturalWidth > 0)")
    assert page.url == address


# --- without scripts ------------------------------------------------------------------------
def test_without_scripts_figure_table_and_both_pictures_are_there(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    photos(small_clinic)
    page = opened(small_clinic, open_page, java_script_enabled=False)
    expect(page.locator(".trend-figure.wide svg")).to_be_visible()
    expect(page.get_by_role("slider")).to_have_count(0)
    expect(page.locator(".compare img")).to_have_count(2)
    page.locator("#values > summary").click()
    expect(page.get_by_role("cell", name="24 mm", exact=True)).to_be_visible()
    page.get_by_label("First picture").select_option(index=1)
    page.get_by_role("button", name="Show these two").click()
    expect(page.locator('figure[data-side="first"]')).to_contain_text("11 May")
