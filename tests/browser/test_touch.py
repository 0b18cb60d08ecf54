"""A whole visit by touch on a phone: taps, a finger drawn over the clock face, a number pad."""

import re

import pytest
from playwright.sync_api import CDPSession, Locator, Page, expect

from clinic.visits.choices import SectionKey, VisitState
from clinic.visits.models import Assessment
from tests.browser.conftest import PHONE, OpenPage, SmallClinic
from tests.browser.face import on_screen
from tests.browser.sheet import sheet_text
from tests.browser.shots import shot
from tests.browser.steps import wait_until_saved
from tests.factories.accounts import PASSWORD

pytestmark = pytest.mark.browser


class Finger:
    """Touches what is on the screen; the page's own keyboard types, as a phone's does."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.taps = 0
        self.touch: CDPSession = page.context.new_cdp_session(page)

    def tap(self, target: str | Locator) -> None:
        place = self.page.locator(target) if isinstance(target, str) else target
        place.tap()
        self.taps += 1

    def type(self, target: str, text: str) -> None:
        self.page.wait_for_timeout(400)  # sooner, on one spot, two taps would be a double tap
        self.tap(target)
        self.page.keyboard.type(text)

    def answer(self, name: str, value: str) -> None:
        self.tap(f'label:has(> input[name="{name}"][value="{value}"])')

    def choose(self, target: str, value: str) -> None:
        """A phone shows its own list for a select; what it sends back is the choice."""
        self.tap(target)
        self.page.locator(target).select_option(value)

    def draw(self, points: list[tuple[float, float]]) -> None:
        """Press on the first point, move over the others, lift."""
        for kind, where in [
            ("touchStart", points[:1]),
            *(("touchMove", [point]) for point in points[1:]),
            ("touchEnd", []),
        ]:
            touches = [{"x": x, "y": y} for x, y in where]
            self.touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": touches})
        self.taps += 1


def find_and_start(finger: Finger, clinic: SmallClinic) -> None:
    page = finger.page
    page.goto(f"{clinic.url}/")
    finger.type("#id_login", clinic.nurse.username)
    finger.type("#id_password", PASSWORD)
    finger.tap(page.get_by_role("button", name="Sign in", exact=True))
    finger.type("#find-box", "B000417")
    finger.tap(page.get_by_role("button", name="Find", exact=True))
    finger.tap(page.locator(".people a").first)
    finger.tap(page.get_by_role("button", name=re.compile("^Start")))
    page.wait_for_selector("body.scripted")


def chart(finger: Finger) -> None:
    finger.answer("visit-reason", "leak")  # opens the back of the barrier
    for hour in ("5", "6", "7"):
        finger.answer("system-erosion_hours", hour)
    finger.tap("#q-worn summary")
    finger.answer("system-profile", "flat")
    finger.type("[name=system-opening_length_mm]", "38")
    finger.type("[name=stoma-length_mm]", "30")
    finger.type("[name=stoma-width_mm]", "28")
    finger.type("[name=stoma-protrusion_mm]", "3")
    finger.tap(finger.page.get_by_role("button", name="Below skin"))
    finger.tap('[value="quick-looks"]')


def paint(finger: Finger) -> None:
    finger.tap("[data-face=open]")
    finger.choose("#face-kind", "finding:erosion")
    stroke = [on_screen(finger.page, 5 + step / 4, 5 + step) for step in range(9)]
    finger.draw(stroke)
    shot(finger.page, "touch-painted", whole=False)


def finish(finger: Finger) -> None:
    page = finger.page
    finger.tap('[value="quick-beside"]')
    for part in ("output", "wear"):
        finger.answer("whole-not_looked_at", part)
    wait_until_saved(page)
    shot(page, "touch-charted")
    finger.tap('[value="accept-rest"]')
    expect(page.locator(".plan-count")).to_have_text("All decided")
    finger.tap('[value="sign"]')
    page.wait_for_url(re.compile(r"/visits/[0-9a-f-]{36}/$"))
    shot(page, "touch-signed")


def test_whole_visit_by_touch(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    finger = Finger(open_page(viewport=PHONE, has_touch=True, is_mobile=True))
    find_and_start(finger, small_clinic)
    chart(finger)
    paint(finger)
    finish(finger)
    assert "Wintergreen" in sheet_text(finger.page)
    print(f"\nBy touch: {finger.taps} taps and strokes to the sheet")
    charted = Assessment.objects.get(stoma=small_clinic.stoma)
    assert charted.visit.state == VisitState.SIGNED
    assert charted.not_looked_at == [SectionKey.OUTPUT, SectionKey.WEAR]
    assert charted.measurement.length_mm == 30
    assert charted.measurement.protrusion_mm == -3
    painted = charted.skin_findings.get()
    assert (painted.kind, painted.hours) == ("erosion", [5, 6, 7])
    assert (painted.inner_mm, painted.outer_mm) == (0, 20)


def test_drawing_does_not_scroll(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    """A finger on the skin paints; the page stays where it is."""
    page = open_page(small_clinic.nurse, viewport=PHONE, has_touch=True, is_mobile=True)
    page.goto(small_clinic.chart_url(small_clinic.draft()))
    page.wait_for_selector("body.scripted")
    finger = Finger(page)
    finger.tap("[data-face=open]")
    finger.choose("#face-kind", "leak")
    line = [
        on_screen(page, 12, 45),
        on_screen(page, 12, 20),
        on_screen(page, 6, 20),
        on_screen(page, 6, 45),
    ]
    face = page.locator("#face svg[role=application]")
    before = face.bounding_box()
    finger.draw(line)
    wait_until_saved(page)
    after = face.bounding_box()
    assert before is not None
    assert after is not None
    # A line of words above it may be longer now.
    assert abs(after["y"] - before["y"]) < 60
    assert page.locator('[data-layer="leak"] input.hours:checked').count() == 2
