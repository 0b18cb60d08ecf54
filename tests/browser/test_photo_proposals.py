"""The computer proposes, the nurse confirms: corners and edge on a painted photo."""

import io
import json
import re

import numpy as np
import pytest
from PIL import ExifTags, Image
from playwright.sync_api import Page, expect

from clinic.visits.actions.photo import add_photo
from clinic.visits.models import Photo, PhotoMeasurement
from tests.browser.conftest import PHONE, OpenPage, SmallClinic
from tests.browser.page_faults import faults_here
from tests.browser.shots import shot
from tests.browser.test_photo_measure import choose_card, figures, mm, mode, on_screen, opened
from tests.factories.rendered import Look, as_jpeg, rendered
from tests.factories.scene import Camera, card_at, oval

pytestmark = pytest.mark.browser

VIEW = Camera(far=420, tilt=18, axis=0, focal=2400)
CARD, EDGE = VIEW.pixels(card_at(0, -58, 8)), VIEW.pixels(oval(40, 30, 60, n=240))


def as_a_phone_takes_it() -> bytes:
    """Lying on its side, with a word (EXIF) on how to turn it."""
    upright = rendered(Look(), CARD, EDGE, np.random.default_rng(5))
    lying = Image.fromarray(np.ascontiguousarray(np.rot90(upright)[..., ::-1]))
    turn = Image.Exif()
    turn[ExifTags.Base.Orientation] = 6
    out = io.BytesIO()
    lying.save(out, "JPEG", quality=92, exif=turn)
    return out.getvalue()


def marks(page: Page) -> dict[str, list[list[float]]]:
    found: dict[str, list[list[float]]] = json.loads(page.locator("[name=marks]").input_value())
    return found


def nothing_measured(page: Page) -> None:
    expect(page.locator("#measure-figures")).to_have_attribute("aria-busy", "false")
    expect(page.locator(".photo-table")).to_have_count(0)
    # It is not asked for either: nothing is wrong while she still looks.
    expect(page.locator(".measure-error")).to_have_count(0)


def test_uploaded_proposed_dragged_confirmed_and_measured(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = open_page(small_clinic.nurse)
    draft = small_clinic.draft()
    page.goto(f"{small_clinic.url}/visits/chart/{draft.uuid}/photos/")
    page.locator("#picture").set_input_files(
        {"name": "phone.jpg", "mimeType": "image/jpeg", "buffer": as_a_phone_takes_it()}
    )
    page.get_by_role("button", name="Add photos").click()
    page.wait_for_url(re.compile("/visits/chart/"))
    picture = Photo.objects.get(assessment=draft)
    page.goto(f"{small_clinic.url}/visits/photos/{picture.pk}/measure/")
    page.wait_for_selector("body.scripted")
    find = page.locator("#measure-propose")
    expect(find).to_be_hidden()  # before it is said what lies there
    choose_card(page)
    find.click()
    box = page.locator("#measure-proposal")
    expect(box).to_be_visible(timeout=20_000)
    expect(page.locator("#measure-status")).to_contain_text("proposed, not confirmed yet")
    shot(page, "measure-proposed")
    assert faults_here(page) == []
    corners = marks(page)["card"]
    for true in CARD:
        assert min(np.hypot(x - true[0], y - true[1]) for x, y, _ in corners) < 3
    # One corner is dragged away and, by the arrow keys, a little further.
    page.locator("#measure-svg").scroll_into_view_if_needed()
    x, y = on_screen(page, np.array(corners[0][:2]))
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 14, y, steps=4)
    page.mouse.up()
    page.keyboard.press("ArrowLeft")
    moved = marks(page)["card"]
    assert moved[1:] == corners[1:]
    assert moved[0][0] > corners[0][0] + 5
    page.keyboard.press("Control+z")
    page.keyboard.press("Control+z")
    assert marks(page)["card"] == corners
    page.locator("#measure-svg").press("ArrowRight")
    # The edge is marked too; still nothing counts.
    mode(page, "outline")
    expect(find).to_have_text("Find the edge for me")
    find.click()
    expect(page.locator("#measure-confirm")).to_have_text("This edge is right")
    expect(box).to_be_visible(timeout=20_000)
    shot(page, "measure-edge-proposed")
    nothing_measured(page)
    page.locator("#measure-confirm").click()
    expect(box).to_be_hidden()
    nothing_measured(page)  # the corners are not confirmed
    mode(page, "reference")
    page.get_by_role("button", name="These corners are right").click()
    got = figures(page)
    assert mm(got["Length"]) == pytest.approx(40, abs=1)
    assert mm(got["Width"]) == pytest.approx(30, abs=1)
    page.get_by_label("Checked: the head is that way").check()
    page.get_by_role("button", name="Fill in length and width", exact=True).click()
    page.wait_for_url(re.compile("/visits/chart/.*#stoma"))
    expect(page.locator(".photo-measured")).to_contain_text(
        "Proposed by the computer, then confirmed: corners (1 changed), edge."
    )
    kept = PhotoMeasurement.objects.get(photo=picture).marks["proposed"]["card"]
    assert (kept["points"], kept["moved"]) == (corners, 1)


def test_what_is_not_found_is_said_and_marked_by_hand(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    bare = as_jpeg(rendered(Look(), None, EDGE, np.random.default_rng(5)))
    picture = add_photo(
        assessment=small_clinic.draft(), data=bare, caption="", by=small_clinic.nurse
    )
    page = opened(small_clinic, open_page, picture, viewport=PHONE, has_touch=True, is_mobile=True)
    choose_card(page)
    page.locator("#measure-propose").tap()
    said = page.locator("#measure-proposal-heard")
    expect(said).to_contain_text("No card was found for sure", timeout=20_000)
    expect(page.locator("#measure-proposal")).to_be_hidden()
    mode(page, "outline")
    expect(said).to_have_text("")
    page.locator("#measure-propose").tap()
    box = page.locator("#measure-proposal")
    expect(box).to_be_visible(timeout=20_000)
    shot(page, "measure-phone-proposed")
    assert faults_here(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") == PHONE["width"]
    page.get_by_role("button", name="Take it away, mark by hand").tap()
    expect(box).to_be_hidden()
    assert marks(page)["outline"] == []
