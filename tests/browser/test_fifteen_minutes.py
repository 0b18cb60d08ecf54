"""How much a visit asks of the hands: what is on the page before anything is charted, and how many
presses an ordinary follow-up and a leaking stoma take from the open page to the signature."""

import re

import pytest
from django.utils import timezone
from playwright.sync_api import Locator, Page, ViewportSize, expect

from clinic.plans.models import Decision
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment, Confirmation, Visit
from tests.browser.clock_face_strokes import drag
from tests.browser.conftest import DESK, PHONE, OpenPage, SmallClinic
from tests.browser.shots import shot
from tests.browser.steps import wait_until_saved
from tests.clinic.plans.signed_visits import accept, sign
from tests.factories.visits import WearEpisodeFactory

pytestmark = pytest.mark.browser

#: Boxes, buttons of a choice and lists that a hand could use now.
IN_SIGHT = """() => [...document.querySelectorAll("main input, main select, main textarea")].filter(
  (e) => e.type !== "hidden" && e.checkVisibility({ visibilityProperty: true })
    && e.getBoundingClientRect().width > 1).length"""
SCREENS = "document.documentElement.scrollHeight / window.innerHeight"


class Hand:
    """Presses and types on ``page``, and counts both; ``decisions``: presses about the plan."""

    def __init__(self, page: Page) -> None:
        self.page, self.presses, self.keys, self.decisions = page, 0, 0, 0

    def press(self, target: str | Locator) -> None:
        place = self.page.locator(target) if isinstance(target, str) else target
        place.click()
        self.presses += 1

    def answer(self, name: str, value: str) -> None:
        self.press(f'label:has(> [name="{name}"][value="{value}"])')

    def type(self, name: str, text: str) -> None:
        """Into a box that is pressed first."""
        self.press(f"[name={name}]")
        self.page.keyboard.type(text)
        self.keys += len(text)

    def wait(self) -> None:
        """Until nothing is under way."""
        expect(self.page.locator("#save-status")).not_to_have_attribute("data-state", "waiting")
        expect(self.page.locator("#plan")).not_to_have_attribute("aria-busy", "true")

    def one_press(self, value: str) -> None:
        """A button that is sent and comes back to its place."""
        with self.page.expect_navigation():
            self.press(f'[name=press][value="{value}"]')
        self.page.wait_for_selector("body.scripted")

    def accept_and_sign(self) -> None:
        self.wait()
        with self.page.expect_navigation():
            self.press("#accept-rest")
            self.decisions += 1
        self.page.wait_for_selector("body.scripted")
        self.press('.chart-bar [value="sign"]')
        self.page.wait_for_url(re.compile(r"/visits/[0-9a-f-]{36}/$"))


@pytest.fixture
def seen_before(small_clinic: SmallClinic) -> Assessment:
    """A pouching system that fits, and a barrier that was put on at that visit."""
    last = small_clinic.draft(well_fitting=True)
    WearEpisodeFactory(assessment=last, on=last.visit.happened_at.date(), off=None, reason="")
    accept(last)
    sign(last)
    return last


def follow_up(clinic: SmallClinic, open_page: OpenPage, screen: ViewportSize) -> Page:
    """The empty page of a visit today."""
    page = open_page(clinic.nurse, viewport=screen)
    page.goto(f"{clinic.url}/patients/{clinic.patient.uuid}/")
    page.get_by_role("button", name=re.compile("Start")).first.click()
    page.wait_for_selector("body.scripted")
    return page


def signed_today() -> Assessment:
    visit = Visit.objects.latest("happened_at")
    assert visit.state == VisitState.SIGNED
    assert visit.happened_at.date() == timezone.now().date()
    return visit.assessments.get()


@pytest.mark.parametrize(("screen", "most"), [(DESK, 2.5), (PHONE, 5)], ids=["desk", "phone"])
@pytest.mark.usefixtures("seen_before")
def test_what_an_empty_visit_shows(
    small_clinic: SmallClinic, open_page: OpenPage, screen: ViewportSize, most: float
) -> None:
    page = follow_up(small_clinic, open_page, screen)
    inputs, screens = page.evaluate(IN_SIGHT), page.evaluate(SCREENS)
    print(f"\n{inputs} inputs in sight, {screens:.2f} screens")
    shot(page, "empty-follow-up")
    assert inputs <= 60
    assert screens <= most


@pytest.mark.usefixtures("seen_before")
def test_an_ordinary_follow_up(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    hand = Hand(follow_up(small_clinic, open_page, DESK))
    hand.answer("visit-reason", "planned")
    hand.answer("whole-last_plan_helped", "yes")
    hand.press('[data-quick][value="quick-danger"]')
    hand.press('[data-came-off="planned"]')
    hand.press('[data-quick][value="quick-back"]')
    hand.one_press("as-last-all")
    shot(hand.page, "ordinary-follow-up")
    hand.accept_and_sign()
    print(f"\nOrdinary follow-up: {hand.presses} presses, {hand.keys} keys")
    assert hand.presses <= 10
    assert hand.keys <= 30
    found = signed_today()
    assert found.output.symptoms == []
    assert found.system.leak_hours == []
    assert found.measurement.length_mm == 30
    assert found.wear_rows.get().reason == "planned"
    assert Confirmation.objects.filter(assessment=found).count() == 5


@pytest.mark.usefixtures("seen_before")
def test_a_leaking_stoma(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    hand = Hand(follow_up(small_clinic, open_page, DESK))
    hand.answer("visit-reason", "leak")
    hand.answer("whole-last_plan_helped", "no")
    hand.press('[data-quick][value="quick-danger"]')
    hand.type("output-volume_ml_24h", "800")
    hand.answer("output-consistency", "liquid")
    hand.press('[data-came-off="leak"]')
    for hour in ("5", "6", "7"):
        hand.answer("system-erosion_hours", hour)
    hand.answer("system-leak_hours", "6")
    hand.one_press("as-last-system")
    hand.type("stoma-length_mm", "30")
    hand.type("stoma-width_mm", "28")
    hand.type("stoma-protrusion_mm", "9")
    hand.press('[data-quick][value="quick-looks"]')
    hand.answer("stoma-lumen", "centre")
    hand.page.locator("#face-kind").select_option("finding:erosion")
    hand.presses += 2
    drag(hand.page, (5, 10), (6, 10), (7, 10))
    hand.presses += 1
    hand.one_press("as-last-abdomen")
    hand.wait()
    shot(hand.page, "leaking-stoma")
    hand.accept_and_sign()
    print(f"\nLeaking stoma: {hand.presses} presses, {hand.keys} keys, {hand.decisions} decisions")
    assert hand.presses <= 30
    assert hand.keys <= 120
    assert hand.decisions <= 4
    found = signed_today()
    assert found.skin_findings.get().hours == [5, 6, 7]
    assert Decision.objects.filter(assessment=found).exists()


def test_quick_answers_show_at_once_what_they_record(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = follow_up(small_clinic, open_page, DESK)
    question = page.locator("#q-looks")
    button = question.locator("[data-quick]")
    button.click()
    expect(button).to_be_hidden()
    expect(question.locator("[data-said]")).to_contain_text("ink to red")
    wait_until_saved(page)
    expect(question.locator("[data-said]")).to_contain_text("Colour: Pink to red")
    question.locator("summary").click()
    question.locator("label", has_text="Hard").click()
    wait_until_saved(page)
    expect(question.locator("[data-said]")).to_contain_text("Feel: Hard")


def test_a_finding_of_ones_own_takes_the_quick_answer_away(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = follow_up(small_clinic, open_page, DESK)
    question = page.locator("#q-back")
    question.locator("summary").click()
    question.locator('label:has(> [name="system-leak_hours"][value="6"])').click()
    expect(question.locator("[data-quick]")).to_be_hidden()


def test_an_answer_opens_what_it_makes_matter_once(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    """Closed by hand, it stays closed."""
    page = follow_up(small_clinic, open_page, DESK)
    fold = page.locator("#q-vital-signs details")
    expect(fold).to_be_hidden()
    page.locator("#q-danger summary").click()
    page.locator("label", has_text="Fever 38").click()
    expect(page.locator("[name=person-temperature_c]")).to_be_visible()
    fold.locator("summary").click()
    page.locator("[name=output-volume_ml_24h]").fill("700")
    expect(page.locator("[name=person-temperature_c]")).to_be_hidden()
