"""Measuring on a synthetic photo of known size: by mouse, by keyboard, by touch."""

import json
import re

import numpy as np
import pytest
from playwright.sync_api import Page, expect

from clinic.visits.actions.photo import add_photo
from clinic.visits.models import Assessment, Photo
from tests.browser.conftest import PHONE, OpenPage, SmallClinic
from tests.browser.keys import Keys
from tests.browser.page_faults import faults_here
from tests.browser.shots import shot
from tests.browser.watch import Watch
from tests.factories.scene import Array, Camera, card_at, oval, photo

pytestmark = pytest.mark.browser

#: A tilted view of a stoma of 40 × 30 mm, its length towards 2 and 8 o'clock.
VIEW = Camera(far=420, tilt=18, axis=0, focal=3000)
EDGE, CARD = oval(40, 30, 60, n=16), card_at(0, -58, 8)
SVG = "#measure-svg"


@pytest.fixture
def picture(small_clinic: SmallClinic) -> Photo:
    draft = small_clinic.draft()
    return add_photo(
        assessment=draft,
        data=photo(VIEW, oval(40, 30, 60, n=400), CARD),
        caption="",
        by=(small_clinic.nurse),
    )


#: The chosen point stays in view while one zooms.
CHOSEN_IN_VIEW = """() => {
  const ring = document.querySelector(".measure-ring")?.getBoundingClientRect();
  const view = document.querySelector("#measure-view").getBoundingClientRect();
  return ring && view.left < ring.left && ring.left < view.right
    && view.top < ring.top && ring.top < view.bottom;
}"""


def opened(clinic: SmallClinic, open_page: OpenPage, picture: Photo, **options: object) -> Page:
    page = open_page(clinic.nurse, **options)
    page.goto(f"{clinic.url}/visits/photos/{picture.pk}/measure/")
    page.wait_for_selector("body.scripted")
    return page


def on_screen(page: Page, at: Array) -> tuple[float, float]:
    """Where a pixel of the picture is shown."""
    x, y = page.evaluate(
        """([x, y]) => {
          const svg = document.getElementById("measure-svg");
          const at = new DOMPoint(x, y).matrixTransform(svg.getScreenCTM());
          return [at.x, at.y];
        }""",
        [float(at[0]), float(at[1])],
    )
    return x, y


def click_each(page: Page, points: Array) -> None:
    page.locator(SVG).scroll_into_view_if_needed()
    for point in VIEW.pixels(points):
        page.mouse.click(*on_screen(page, point))


def mode(page: Page, value: str) -> None:
    page.locator(f'label:has(> [name=mode][value="{value}"])').click()


def choose_card(page: Page) -> None:
    """A card flat on flat skin."""
    for name, value in (("kind", "card"), ("raised", "flat"), ("rounded", "flat")):
        page.locator(f'label:has(> [name={name}][value="{value}"])').click()


def figures(page: Page) -> dict[str, str]:
    """Field -> what the photo gives."""
    expect(page.locator(".photo-table")).to_be_visible(timeout=20_000)
    expect(page.locator("#measure-figures")).to_have_attribute("aria-busy", "false")
    rows = page.locator(".photo-table tbody tr").all()
    return {row.locator("th").inner_text(): row.locator("td b").inner_text() for row in rows}


def mm(text: str) -> float:
    found = re.match(r"[\d.]+", text)
    assert found
    return float(found.group())


def trace(page: Page) -> None:
    choose_card(page)
    mode(page, "reference")
    click_each(page, CARD)
    mode(page, "outline")
    click_each(page, EDGE)


def test_traced_by_mouse_and_filled_in(
    small_clinic: SmallClinic, open_page: OpenPage, picture: Photo, watch: Watch
) -> None:
    watch.expected = ("status of 422",)  # the page with its errors
    page = opened(small_clinic, open_page, picture)
    shot(page, "measure-empty")
    trace(page)
    got = figures(page)
    assert mm(got["Length"]) == pytest.approx(40, abs=0.6)
    assert mm(got["Width"]) == pytest.approx(30, abs=0.6)
    assert got["Length points to"] == "2 o'clock"
    shot(page, "measure-traced")
    page.get_by_role("button", name="Fill in length and width", exact=True).click()
    expect(page.locator("#div_id_head_sure .field-error")).to_be_visible()
    shot(page, "measure-head-first")
    page.get_by_label("Checked: the head is that way").check()
    page.get_by_role("button", name="Fill in length and width", exact=True).click()
    page.wait_for_url(re.compile("/visits/chart/.*#stoma"))
    expect(page.locator("[name=stoma-length_mm]")).to_have_value(got["Length"].removesuffix(" mm"))
    expect(page.locator("[name=stoma-axis_hour]")).to_have_value("2")
    expect(page.locator(".photo-measured")).to_contain_text("Measured on this photo:")
    page.locator("#photos-title").scroll_into_view_if_needed()
    expect(page.locator(".photo-list img")).to_have_js_property("naturalWidth", 360)
    shot(page, "measure-filled", whole=False)
    stored = Assessment.objects.get(pk=picture.assessment_id).measurement
    assert float(stored.length_mm or 0) == pytest.approx(40, abs=0.6)


def test_a_point_is_moved_taken_back_and_undone(
    small_clinic: SmallClinic, open_page: OpenPage, picture: Photo
) -> None:
    page = opened(small_clinic, open_page, picture)
    trace(page)
    field = page.locator("[name=marks]")
    whole = json.loads(field.input_value())["outline"]
    x, y = on_screen(page, np.array(whole[4][:2]))
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 30, y, steps=5)
    page.mouse.up()
    moved = json.loads(field.input_value())["outline"]
    assert moved[4][0] > whole[4][0] + 20
    assert moved[:4] + moved[5:] == whole[:4] + whole[5:]
    page.get_by_role("button", name="Remove point").click()
    assert len(json.loads(field.input_value())["outline"]) == len(whole) - 1
    page.get_by_role("button", name="Undo").click()
    page.get_by_role("button", name="Undo").click()
    assert json.loads(field.input_value())["outline"] == whole
    mm(figures(page)["Length"])


def test_crossing_is_said_beside_the_edge(
    small_clinic: SmallClinic, open_page: OpenPage, picture: Photo
) -> None:
    page = opened(small_clinic, open_page, picture)
    trace(page)
    outline = json.loads(page.locator("[name=marks]").input_value())["outline"]
    x, y = on_screen(page, np.array(outline[0][:2]))
    there = on_screen(page, np.array(outline[8][:2]))
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(there[0], there[1] + 40, steps=6)
    page.mouse.up()
    expect(page.locator("#marks-errors")).to_contain_text("crosses itself")
    shot(page, "measure-crossing")


def nudged(keys: Keys, page: Page, at: Array) -> None:
    """Move the chosen point there by arrow keys, long steps first."""
    chosen = "() => document.querySelector('.measure-ring').getBoundingClientRect().toJSON()"
    box = page.evaluate(chosen)
    wanted = on_screen(page, at)
    far = (wanted[0] - box["x"] - box["width"] / 2, wanted[1] - box["y"] - box["height"] / 2)
    for distance, back, forth in ((far[0], "Left", "Right"), (far[1], "Up", "Down")):
        key = f"Arrow{forth if distance > 0 else back}"
        long, short = divmod(round(abs(distance)), 10)
        keys.press(f"Shift+{key}", long)
        keys.press(key, short)


def test_by_keyboard_alone(small_clinic: SmallClinic, open_page: OpenPage, picture: Photo) -> None:
    page = opened(small_clinic, open_page, picture)
    keys = Keys(page)
    for name in ("kind", "raised", "rounded"):
        keys.tab_to(f"[name={name}]")
        keys.press("Space")
    keys.tab_to(SVG)
    for corner in VIEW.pixels(CARD):
        keys.press("Space")
        nudged(keys, page, corner)
    keys.press("Shift+Tab", 2)  # past the button that has the corners found
    keys.press("ArrowRight")
    keys.tab_to(SVG)
    for point in VIEW.pixels(EDGE):
        keys.press("Space")
        nudged(keys, page, point)
    got = figures(page)
    assert mm(got["Length"]) == pytest.approx(40, abs=0.8)
    assert mm(got["Width"]) == pytest.approx(30, abs=0.8)
    keys.press("PageUp")
    expect(page.locator("#measure-status")).to_contain_text("Edge point 15 of 16 chosen")
    keys.press("Delete")
    expect(page.locator("#measure-status")).to_contain_text("of 15 chosen")
    keys.press("Control+z")
    expect(page.locator("#measure-status")).to_contain_text("of 16 chosen")


def mode_by_finger(page: Page, value: str) -> None:
    page.locator(f'label:has(> [name=mode][value="{value}"])').tap()


#: A pixel of the picture into the middle of what is seen.
SCROLL_TO = """([x, y]) => {
  const svg = document.getElementById("measure-svg");
  const factor = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
  const view = svg.parentElement;
  view.scrollTo(x * factor - view.clientWidth / 2, y * factor - view.clientHeight / 2);
}"""


def tap_each(page: Page, *parts: tuple[str, Array]) -> None:
    for value, points in parts:
        mode_by_finger(page, value)
        page.locator("#measure-view").scroll_into_view_if_needed()
        for point in VIEW.pixels(points):
            page.evaluate(SCROLL_TO, [float(point[0]), float(point[1])])
            page.touchscreen.tap(*on_screen(page, point))


def test_by_finger_on_a_phone(
    small_clinic: SmallClinic, open_page: OpenPage, picture: Photo
) -> None:
    page = opened(small_clinic, open_page, picture, viewport=PHONE, has_touch=True, is_mobile=True)
    assert faults_here(page) == []
    for name, value in (("kind", "card"), ("raised", "flat"), ("rounded", "flat")):
        page.locator(f'label:has(> [name={name}][value="{value}"])').tap()
    shot(page, "measure-phone-asked")
    tap_each(page, ("reference", CARD), ("outline", EDGE[::2]))
    marks = json.loads(page.locator("[name=marks]").input_value())
    assert (len(marks["card"]), len(marks["outline"])) == (4, 8)
    # A finger on so small a picture is too broad to go by.
    expect(page.locator("#marks-errors")).to_contain_text("Zoom in before you mark")
    for value in ("outline", "reference"):
        mode_by_finger(page, value)
        page.get_by_role("button", name="Clear these").tap()
    page.get_by_role("button", name="Zoom +").tap()
    tap_each(page, ("reference", CARD), ("outline", EDGE))
    assert mm(figures(page)["Length"]) == pytest.approx(40, abs=3)
    page.get_by_role("button", name="Zoom +").tap()
    page.wait_for_function(CHOSEN_IN_VIEW)
    page.locator("#measure-photo").scroll_into_view_if_needed()
    shot(page, "measure-phone", whole=False)
    assert faults_here(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") == PHONE["width"]


def test_only_what_the_reference_needs_is_asked(
    small_clinic: SmallClinic, open_page: OpenPage, picture: Photo
) -> None:
    page = opened(small_clinic, open_page, picture)
    askew, height = page.locator("#askew-box"), page.locator("#raised-box")
    for shown in (askew, height):
        expect(shown).to_be_hidden()
    page.locator('label:has(> [name=kind][value="line"])').click()
    page.locator('label:has(> [name=raised][value="raised"])').click()
    expect(askew).to_be_visible()
    expect(height).to_be_visible()
    shot(page, "measure-ruler")
    choose_card(page)
    for shown in (askew, height):
        expect(shown).to_be_hidden()


def test_marks_come_back_when_the_photo_is_opened_again(
    small_clinic: SmallClinic, open_page: OpenPage, picture: Photo
) -> None:
    page = opened(small_clinic, open_page, picture)
    trace(page)
    figures(page)
    page.get_by_label("Checked: the head is that way").check()
    page.get_by_role("button", name="Fill in length, width and twelve radii").click()
    page.wait_for_url(re.compile("/visits/chart/"))
    page.get_by_role("link", name="Measure on this photo").click()
    page.wait_for_selector("body.scripted")
    assert mm(figures(page)["Length"]) == pytest.approx(40, abs=0.6)
    expect(page.locator(".photo-table")).to_contain_text("Twelve radii")


def test_without_scripts_the_page_says_what_to_do(
    small_clinic: SmallClinic, open_page: OpenPage, picture: Photo
) -> None:
    page = open_page(small_clinic.nurse, java_script_enabled=False)
    page.goto(f"{small_clinic.url}/visits/photos/{picture.pk}/measure/")
    expect(page.get_by_text("Marking on a photo needs scripts")).to_be_visible()
    expect(page.locator(SVG)).to_be_hidden()
