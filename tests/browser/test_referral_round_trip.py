"""A question from nurse to surgeon and its answer back; a visit moved; the day's sheets."""

from datetime import timedelta

import pytest
from django.utils import timezone
from playwright.sync_api import Page, Route, expect
from pytest_django import Settings

from clinic.accounts.models import Role, User
from clinic.follow_up.models import FollowUp
from clinic.referrals.models import Referral
from clinic.visits.models import Assessment
from tests.browser.conftest import PHONE, OpenPage, SmallClinic
from tests.browser.shots import shot
from tests.browser.steps import days_ago
from tests.browser.watch import Watch
from tests.clinic.plans.signed_visits import accept, sign
from tests.factories.accounts import UserFactory


@pytest.fixture
def seen(small_clinic: SmallClinic, settings: Settings) -> Assessment:
    """Signed, and due again today."""
    settings.CLINIC_CLOSED_WEEKDAYS = frozenset()
    made = small_clinic.draft(leaking=True)
    accept(made)
    sign(made)
    FollowUp.objects.filter(set_by=made).update(due=timezone.localdate())
    return made


@pytest.fixture
def surgeon() -> User:
    return UserFactory.create(
        username="hazel", first_name="Hazel", last_name="Thornby", role=Role.SURGEON
    )


def ask(page: Page, url: str, about: Assessment) -> None:
    """From the signed visit: an emergency of the nurse's own."""
    page.goto(f"{url}/visits/{about.visit.uuid}/")
    page.get_by_role("link", name="Refer to a colleague").click()
    page.get_by_label("To whom").fill("Colorectal surgeon")
    page.get_by_role("radio", name="Emergency, now").check()
    question = page.get_by_label("Question")
    begun = question.input_value()
    assert "length 30 mm" in begun
    question.fill(f"Is the stoma dying? {begun}")
    shot(page, "refer")
    page.get_by_role("button", name="Send the referral").click()
    expect(page.get_by_text("It now waits for an answer")).to_be_visible()


@pytest.mark.parametrize("view", [{}, {"viewport": PHONE}], ids=["desk", "phone"])
def test_a_question_goes_to_the_surgeon_and_its_answer_comes_back(
    small_clinic: SmallClinic,
    seen: Assessment,
    surgeon: User,
    open_page: OpenPage,
    view: dict[str, object],
) -> None:
    nurse = open_page(small_clinic.nurse, **view)
    ask(nurse, small_clinic.url, seen)
    unseen = "Referral not opened yet by anyone who may answer"
    expect(nurse.get_by_text(unseen)).to_be_visible()

    theirs = open_page(surgeon, **view)
    theirs.goto(f"{small_clinic.url}/patients/")
    theirs.get_by_role("link", name="1 urgent referral without an answer").click()
    expect(theirs.get_by_text("needs an answer now")).to_be_visible()
    shot(theirs, "referrals")
    theirs.get_by_role("link", name="Wintergreen, Sorrel").first.click()

    nurse.reload()
    expect(nurse.get_by_text("Opened by Hazel Thornby")).to_be_visible()

    theirs.get_by_role("textbox", name="Answer").fill("Send her to theatre two.")
    theirs.get_by_role("button", name="Send answer").click()
    expect(theirs.get_by_text("Answer sent to Rowan Tansy")).to_be_visible()
    expect(theirs.get_by_text("urgent referral")).to_have_count(0)

    nurse.goto(f"{small_clinic.url}/")
    nurse.get_by_role("link", name="1 new answer to you").click()
    expect(nurse.get_by_text("Send her to theatre two.")).to_be_visible()
    shot(nurse, "day-with-answer")
    nurse.locator("#answers ~ .entry a").first.click()
    expect(nurse.get_by_role("heading", name="Answer", exact=True)).to_be_visible()
    nurse.goto(f"{small_clinic.url}/")
    expect(nurse.get_by_text("new answer to you")).to_have_count(0)
    assert Referral.objects.get().answer_read_at is not None


def test_a_visit_is_moved_later_only_once_that_is_confirmed(
    small_clinic: SmallClinic, seen: Assessment, open_page: OpenPage, watch: Watch
) -> None:
    watch.expected = ("422",)
    page = open_page(small_clinic.nurse)
    page.goto(f"{small_clinic.url}/")
    page.get_by_role("link", name="Move day of Wintergreen, Sorrel").click()
    page.get_by_label("New day").press_sequentially(days_ago(-3))
    page.get_by_role("radio", name="No room in the clinic that day").check()
    page.get_by_role("button", name="Move the visit").click()
    # Above the form and beside the box.
    expect(page.get_by_text("3 days later than the last visit asked for")).to_have_count(2)
    later = (timezone.localdate() + timedelta(days=3)).isoformat()
    expect(page.get_by_label("New day")).to_have_value(later)
    shot(page, "reschedule-later")
    page.get_by_role("checkbox", name="Yes, later than").check()
    page.get_by_role("button", name="Move the visit").click()
    expect(page.get_by_text("Next visit moved to")).to_be_visible()
    expect(page.get_by_text("3 days later than the visit asked for")).to_be_visible()
    assert FollowUp.objects.get(set_by=seen).due.isoformat() == later


def test_the_days_sheets_say_how_far_they_are(
    small_clinic: SmallClinic, seen: Assessment, open_page: OpenPage
) -> None:
    page = open_page(small_clinic.nurse)
    page.goto(f"{small_clinic.url}/")
    page.get_by_role("link", name="Print the day's sheets").click()
    expect(page.get_by_role("checkbox", name="Wintergreen, Sorrel")).to_be_checked()
    page.wait_for_load_state()  # its script has run
    # The file itself would replace the page: what matters here is what is said before.
    page.evaluate("document.getElementById('day-sheets').submit = () => {}")
    page.get_by_role("button", name="Print as one file").click()
    expect(page.get_by_role("status")).to_have_text("1 of 1 sheets are ready.", timeout=30_000)
    shot(page, "day-sheets")


def test_a_lost_connection_is_said_and_can_be_gone_on_from(
    small_clinic: SmallClinic, seen: Assessment, open_page: OpenPage, watch: Watch
) -> None:
    watch.expected = ("Failed to load resource",)
    page = open_page(small_clinic.nurse)
    page.goto(f"{small_clinic.url}/documents/day-sheets/")
    page.route("**/day-sheets/one/", lambda route: route.abort())
    page.get_by_role("button", name="Print as one file").click()
    expect(page.get_by_role("status")).to_contain_text("The connection was lost.")
    expect(page.get_by_role("button", name="Print as one file")).to_be_enabled()


def test_sheets_are_set_two_at_a_time_until_one_cannot_be(
    small_clinic: SmallClinic, seen: Assessment, open_page: OpenPage, watch: Watch
) -> None:
    watch.expected = ("Failed to load resource",)
    page = open_page(small_clinic.nurse)
    page.goto(f"{small_clinic.url}/documents/day-sheets/")
    page.evaluate(
        """() => { const one = document.querySelector("input[name=sheet]");
        for (let count = 0; count < 5; count += 1) one.after(one.cloneNode()); }"""
    )
    held: list[Route] = []
    page.route("**/day-sheets/one/", lambda route: held.append(route))
    status = page.get_by_role("status")
    page.get_by_role("button", name="Print as one file").click()
    expect(status).to_have_text("0 of 6 sheets are ready.")
    page.wait_for_timeout(300)
    assert len(held) == 2
    held[0].fulfill(json={"ready": True})
    expect(status).to_have_text("1 of 6 sheets are ready.")
    page.wait_for_timeout(300)
    assert len(held) == 3
    held[1].fulfill(status=503, json={"message": "No font is here."})
    expect(status).to_have_text("No font is here. 1 of 6 sheets are ready.")
    held[2].fulfill(json={"ready": True})
    expect(status).to_have_text("No font is here. 2 of 6 sheets are ready.")
    expect(page.get_by_role("button", name="Print as one file")).to_be_enabled()
    assert len(held) == 3
