"""How far out a painted finding reaches: what was painted, no more; and findings left empty."""

import pytest
from playwright.sync_api import Page, expect

from clinic.visits.models import Assessment
from tests.browser.clock_face_strokes import LIST, drag, open_draft, ticked
from tests.browser.conftest import OpenPage, SmallClinic
from tests.browser.face import FACE
from tests.browser.steps import wait_until_saved

pytestmark = pytest.mark.browser

ROWS = '[data-rows="finding"] [data-row]'


@pytest.fixture
def draft(small_clinic: SmallClinic) -> Assessment:
    return small_clinic.draft()


@pytest.fixture
def page(small_clinic: SmallClinic, open_page: OpenPage, draft: Assessment) -> Page:
    opened = open_draft(small_clinic, open_page, draft)
    opened.locator("#face-kind").select_option("finding:erosion")
    return opened


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()


def reach(page: Page) -> tuple[str, str]:
    """What is in the two boxes of the only finding."""
    inner, outer = (page.locator(f'{ROWS} [name$="-{n}_mm"]') for n in ("inner", "outer"))
    return inner.input_value(), outer.input_value()


def type_reach(page: Page, inner: str, outer: str) -> None:
    page.locator(f'{ROWS} [name$="-inner_mm"]').fill(inner)
    page.locator(f'{ROWS} [name$="-outer_mm"]').fill(outer)


def test_clear_forgets_how_far_out(page: Page, draft: Assessment) -> None:
    drag(page, (4, 50), (5, 50))
    assert reach(page) == ("0", "50")
    press(page, "Clear")
    drag(page, (4, 10), (5, 10))
    expect(page.locator(LIST)).to_have_text(
        ["Raw, shallow erosion, 4 to 5 o'clock, 0 to 10 mm out"]
    )
    wait_until_saved(page)
    row = draft.skin_findings.get()
    assert (row.inner_mm, row.outer_mm) == (0, 10)


def test_an_hour_taken_off_takes_its_rings_along(page: Page) -> None:
    page.locator(FACE).focus()
    for key in ("Space", "ArrowRight", *["ArrowUp"] * 4, "Space"):
        page.keyboard.press(key)
    assert reach(page) == ("0", "50")
    page.keyboard.press("Space")
    assert ticked(page, "finding") == ["6"]
    assert reach(page) == ("0", "10")


def test_typed_numbers_stay_until_painted_over(page: Page) -> None:
    drag(page, (5, 10))
    type_reach(page, "5", "20")
    drag(page, (6, 10))
    assert reach(page) == ("0", "20")
    drag(page, (7, 30))
    assert reach(page) == ("0", "30")
    drag(page, (7, 30))
    drag(page, (6, 10))
    assert reach(page) == ("5", "20")


def test_all_round_says_nothing_of_how_far_out(page: Page, draft: Assessment) -> None:
    press(page, "All round")
    expect(page.locator(LIST)).to_have_text(
        ["Raw, shallow erosion, all round, how far out not recorded"]
    )
    wait_until_saved(page)
    row = draft.skin_findings.get()
    assert (row.inner_mm, row.outer_mm) == (None, None)


def test_an_empty_finding_goes_by_itself_and_comes_back(page: Page, draft: Assessment) -> None:
    state = page.locator('[name="skin-state"]:checked')
    before = state.input_value()
    drag(page, (4, 20))
    assert state.input_value() == "findings"
    drag(page, (4, 20))  # its only hour, taken off
    expect(page.locator(ROWS)).to_have_count(0)
    assert state.input_value() == before
    wait_until_saved(page)
    assert not draft.skin_findings.exists()
    press(page, "Undo")
    assert (ticked(page, "finding"), reach(page)) == (["4"], ("0", "20"))
    wait_until_saved(page)
    assert draft.skin_findings.get().hours == [4]


def test_a_finding_with_more_in_it_stays(page: Page) -> None:
    drag(page, (4, 20))
    page.locator(f'{ROWS} [name$="-itch"]').select_option("yes")
    press(page, "Clear")
    expect(page.locator(ROWS)).to_have_count(1)
    assert reach(page) == ("", "")
    expect(page.locator("#save-status")).to_contain_text("1 entry to correct")
    expect(page.locator("#save-status")).to_have_attribute("data-state", "correct")


def test_stoma_is_drawn_in_its_charted_colour(page: Page) -> None:
    """By the script as it is chosen, by the server after a reload: the same pattern and words."""

    def expect_drawn(value: str, said: str) -> None:
        ellipse = page.locator(f"{FACE} .face-stoma ellipse")
        expect(ellipse).to_have_attribute("fill", f"url(#face-stoma-{value})")
        expect(page.locator("#face > .face-stoma-words")).to_have_text(f"Stoma: {said}")

    expect_drawn("unknown", "colour not recorded")
    page.locator("[name=stoma-colour]").select_option("dusky")
    expect_drawn("dusky", "dusky or maroon")
    wait_until_saved(page)
    page.reload()
    expect_drawn("dusky", "dusky or maroon")


def test_a_way_back_from_the_face(page: Page) -> None:
    page.locator('[data-layer="leak"] .paint').click()
    page.get_by_role("button", name="Back to Used barrier").click()
    focused = page.evaluate("document.activeElement.name")
    assert focused == "system-leak_hours"
