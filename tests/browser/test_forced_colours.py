"""With the person's own colours for every page: what is chosen, first, dangerous or in focus is
told apart by a filling or a frame, not by a colour of ours."""

import pytest
from playwright.sync_api import Locator

from tests.browser.conftest import OpenPage, SmallClinic
from tests.browser.shots import shot
from tests.browser.steps import open_all

pytestmark = pytest.mark.browser


def style(element: Locator, name: str) -> str:
    return str(element.evaluate("(e, name) => getComputedStyle(e)[name]", name))


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_states_are_told_apart(small_clinic: SmallClinic, open_page: OpenPage, scheme: str) -> None:
    draft = small_clinic.draft(leaking=True, measurement__colour="black_brown_grey")
    page = open_page(small_clinic.nurse, forced_colors="active", color_scheme=scheme)
    page.goto(small_clinic.chart_url(draft))
    open_all(page)
    shot(page, f"forced-{scheme}", whole=False)
    ground = style(page.locator("body"), "backgroundColor")

    chip = page.locator('.choice:has(> input[name="output-consistency"]:checked) > span')
    other = page.locator('.choice:has(> input[name="output-consistency"]:not(:checked)) > span')
    hour = page.locator(".choice > input.hours:checked + span").first
    free = page.locator(".choice > input.hours:not(:checked) + span").first
    for chosen, left in ((chip, other.first), (hour, free)):
        filled = style(chosen, "backgroundColor")
        assert filled not in {ground, style(left, "backgroundColor")}
        assert style(chosen, "color") != filled

    # The next step is to accept; signing comes after it.
    first, sign = page.locator("#accept-rest"), page.locator('.chart-bar [value="sign"]')
    assert style(first, "backgroundColor") not in {ground, style(sign, "backgroundColor")}
    for danger in (page.locator("#alarm a"), page.locator("#plan .urgency-emergency").first):
        assert style(danger, "borderTopStyle") == "double"
    sign.focus()
    page.keyboard.press("Shift+Tab")
    focused = page.locator(":focus")
    assert style(focused, "outlineStyle") == "solid"
    assert style(focused, "outlineColor") != ground
