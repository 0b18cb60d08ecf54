"""What is in sight before anyone scrolls: the record in one screen, a day of thirty in two."""

from datetime import time, timedelta
from typing import Any

import pytest
from django.utils import timezone
from playwright.sync_api import Locator, Page, ViewportSize

from clinic.follow_up.models import FollowUp
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment, Visit
from tests.browser.conftest import DESK, PHONE, OpenPage, SmallClinic
from tests.browser.shots import shot
from tests.clinic.plans.signed_visits import accept, sign
from tests.factories.patients import StomaFactory
from tests.factories.tasks import TaskFactory
from tests.factories.visits import HAPPENED_AT, AssessmentFactory, PhotoFactory, VisitFactory

pytestmark = pytest.mark.browser

BLACK: dict[str, Any] = {"leaking": True, "measurement__colour": "black_brown_grey"}
COURSE: tuple[dict[str, Any], ...] = ({"well_fitting": True}, {"leaking": True}, BLACK)
SMALL = {"width": 320, "height": 640}
PEOPLE = 30


def bottom(where: Locator) -> float:
    """How far down it ends, in CSS pixels from the top of the page."""
    box = where.bounding_box()
    assert box is not None
    return box["y"] + box["height"]


def sideways(page: Page) -> int:
    """By how many pixels the page is wider than its window."""
    return int(page.evaluate("document.documentElement.scrollWidth - window.innerWidth"))


@pytest.fixture
def much(small_clinic: SmallClinic) -> SmallClinic:
    """A patient with a question, a photo and several visits."""
    for days, situation in enumerate(COURSE):
        at = HAPPENED_AT + timedelta(days=10 * days)
        visit = VisitFactory.create(
            patient=small_clinic.patient, clinician=small_clinic.nurse, happened_at=at
        )
        draft: Assessment = AssessmentFactory.create(
            stoma=small_clinic.stoma, visit=visit, **situation
        )
        PhotoFactory.create(assessment=draft, width=400, height=300)
        accept(draft)
        sign(draft)
    FollowUp.objects.filter(done_by=None).update(at=time(10, 30))
    return small_clinic


def record(much: SmallClinic, open_page: OpenPage, screen: ViewportSize) -> Page:
    page = open_page(much.nurse, viewport=screen)
    page.goto(f"{much.url}/patients/{much.patient.uuid}/")
    return page


def test_the_record_is_in_one_screen(much: SmallClinic, open_page: OpenPage) -> None:
    page = record(much, open_page, DESK)
    shot(page, "first-screen-record")
    for part in (
        ".patient-name",
        ".patient-sensitivities",
        ".button.primary",
        ".questions",
        ".stoma-lines",
        ".stoma-seen .clock-face",
        ".stoma-seen img",
        ".stoma-course .spark >> nth=2",
        ".visit-list li >> nth=0",
    ):
        assert bottom(page.locator(part)) <= DESK["height"], part
    assert page.locator(".button.primary").count() == 1
    assert ", 10:30" in page.locator(".stoma-lines").inner_text()


def test_on_a_phone_who_danger_and_the_button_come_first(
    much: SmallClinic, open_page: OpenPage
) -> None:
    page = record(much, open_page, PHONE)
    for part in (".patient-name", ".button.primary", ".question-line >> nth=0"):
        assert bottom(page.locator(part)) <= PHONE["height"], part


def seen_before(stoma_number: int, clinic: SmallClinic) -> Assessment:
    """Somebody who was seen once, with nothing charted: the day asks no more of them."""
    stoma = StomaFactory.create(patient__family_name=f"Nightingale-Underwood{stoma_number}")
    visit = VisitFactory.create(patient=stoma.patient, clinician=clinic.nurse)
    made: Assessment = AssessmentFactory.create(stoma=stoma, visit=visit)
    Visit.objects.filter(pk=visit.pk).update(
        state=VisitState.SIGNED, signed_at=timezone.now(), signed_by=clinic.nurse
    )
    return made


@pytest.fixture
def full_day(small_clinic: SmallClinic) -> SmallClinic:
    """Thirty people: ten overdue, some of them urgent, and twenty today."""
    for number in range(PEOPLE):
        made = seen_before(number, small_clinic)
        FollowUp.objects.create(
            stoma=made.stoma,
            set_by=made,
            due=timezone.localdate() - timedelta(days=10 + number if number < 10 else 0),
            at=None if number < 10 else time(8 + number // 3, 20 * (number % 3)),
            urgency="telephone" if number % 3 == 0 else "days",
            reason="The system was changed: look whether it worked, and how the skin has done "
            "since; bring the diary, and the barriers that came off early.",
        )
    return small_clinic


def test_a_day_of_thirty_is_two_screens(full_day: SmallClinic, open_page: OpenPage) -> None:
    page = open_page(full_day.nurse, viewport=DESK)
    page.goto(f"{full_day.url}/")
    shot(page, "first-screen-day")
    lines = page.locator(".due")
    assert lines.count() == PEOPLE
    assert bottom(lines.last) <= 2 * DESK["height"]


def test_the_days_tasks_are_seen_before_its_thirty_people(
    full_day: SmallClinic, open_page: OpenPage
) -> None:
    """First on a phone; beside the list on a desk."""
    TaskFactory.create(patient=full_day.patient, day=timezone.localdate())
    page = open_page(full_day.nurse, viewport=PHONE)
    page.goto(f"{full_day.url}/")
    task = page.locator(".task").first
    assert bottom(task) <= PHONE["height"]
    page.set_viewport_size(DESK)
    assert bottom(task) <= DESK["height"]
    beside, below = task.bounding_box(), page.locator(".due").nth(3).bounding_box()
    assert beside is not None
    assert below is not None
    assert beside["x"] >= below["x"] + below["width"]
    assert beside["y"] < below["y"]


@pytest.mark.parametrize("screen", [PHONE, SMALL], ids=["phone", "small"])
def test_nothing_scrolls_sideways(
    much: SmallClinic, full_day: SmallClinic, open_page: OpenPage, screen: ViewportSize
) -> None:
    page = open_page(much.nurse, viewport=screen)
    for path in ("/", f"/patients/{much.patient.uuid}/"):
        page.goto(f"{much.url}{path}")
        assert sideways(page) <= 0, path
        assert page.evaluate("document.documentElement.scrollHeight") < 12_000, path
