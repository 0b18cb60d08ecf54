"""The record page: what each role sees first, what is asked, what is worn, each visit in words."""

import re
from datetime import date, time, timedelta

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role
from clinic.follow_up.models import FollowUp
from clinic.patient_record.visit_lines import A_PAGE
from clinic.patients.models import Patient
from clinic.plans.models import Decision
from clinic.referrals.actions.answer import answer_referral
from clinic.referrals.models import Alarm, Referral
from clinic.teaching.choices import Level
from clinic.teaching.missing import teaching_of_each
from clinic.visits.models import Assessment
from tests.clinic.patients.test_rules import PERSON, STOMA
from tests.clinic.plans.signed_visits import accept, reread, sign, signed
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory, StomaFactory
from tests.factories.site_marking import MarkedSiteFactory
from tests.factories.teaching import TaughtPointFactory
from tests.factories.visits import HAPPENED_AT, AssessmentFactory, PhotoFactory, VisitFactory, ended

pytestmark = pytest.mark.django_db
BLACK = {"leaking": True, "measurement__colour": "black_brown_grey"}
START = "Start visit"


def record(patient: Patient, role: Role = Role.NURSE, **asked: str) -> str:
    client = Client()
    client.force_login(UserFactory(role=role))
    return client.get(reverse("patients:record", args=[patient.uuid]), asked).content.decode()


def of(made: Assessment) -> Patient:
    patient: Patient = made.visit.patient
    return patient


def primaries(page: str) -> list[str]:
    """What the primary buttons say."""
    found = re.findall(r'class="button(?: small)? primary"[^>]*>(.*?)</(?:a|button)>', page, re.S)
    return [re.sub(r"<span.*?</span>", "", words).strip() for words in found]


def again(made: Assessment, days: int, **traits: object) -> Assessment:
    """A later draft of the same stoma."""
    visit = VisitFactory(
        patient=of(made),
        clinician=made.visit.clinician,
        happened_at=HAPPENED_AT + timedelta(days=days),
    )
    one: Assessment = AssessmentFactory(stoma=made.stoma, visit=visit, **traits)
    return one


def signed_again(made: Assessment, days: int, **traits: object) -> Assessment:
    later = again(made, days, **(traits or {"well_fitting": True}))
    accept(later)
    sign(later)
    return reread(later)


def test_one_screen_says_what_is_worn_found_begun_and_next() -> None:
    made = signed(leaking=True)
    FollowUp.objects.update(due=date(2025, 5, 20), at=time(10, 30), reason="Look at the skin")
    photo = PhotoFactory(assessment=again(made, 3))
    page = record(of(made))
    assert primaries(page) == ["Continue visit"]
    assert "<b>20 May 2025, 10:30</b>" in page
    assert "Look at the skin" in page
    assert "Leak at 5 to 7 o&#x27;clock; raw, shallow erosion, at 5 to 7 o&#x27;clock" in page
    worn = page.split("Worn now</dt><dd>")[1].split("</dd>")[0]
    assert "barrier" in worn
    assert "opening" in worn
    assert "<b>Plan changed:</b>" in page
    assert "Skin and stoma on the clock face" in page
    assert reverse("visits:photo_small", args=[photo.pk]) in page
    assert 'aria-label="Height: 24 mm on 6 May 2025. Last change of the plan: 6 May 2025"' in page
    assert 'aria-label="Wear: 2 days, leak on 6 May 2025' in page


def test_no_time_is_said_where_none_is_agreed() -> None:
    made = signed(well_fitting=True)
    FollowUp.objects.update(due=date(2025, 5, 20))
    assert "<b>20 May 2025</b>" in record(of(made))


def test_the_desk_sees_when_and_nothing_else_of_it() -> None:
    made = signed(**BLACK)
    FollowUp.objects.update(due=date(2025, 5, 20), at=time(10, 30), reason="Look at the skin")
    page = record(of(made), Role.DESK)
    assert "20 May 2025, 10:30" in page
    for words in ("Look at the skin", "Worn now", "Leak", "leostomy", "Emergency", "Height", START):
        assert words not in page


@pytest.mark.parametrize(
    ("role", "first"), [(Role.NURSE, [START]), (Role.SURGEON, ["Answer"]), (Role.LEAD, [])]
)
def test_each_role_has_at_most_one_thing_to_do_first(role: Role, first: list[str]) -> None:
    made = signed(**BLACK)
    asked = {"assessment": made, "to": "physician", "urgency": "routine", "question": "What else?"}
    Referral.objects.create(made_at=timezone.now(), made_by=made.visit.clinician, **asked)
    page = record(of(made), role)
    assert Referral.objects.unanswered().count() > 1
    assert primaries(page) == first


def test_a_question_without_an_answer_is_named_once_and_leads() -> None:
    made = signed(**BLACK)
    asked = Referral.objects.get(urgency="emergency")
    page = record(of(made))
    questions = page.split('aria-labelledby="questions"')[1].split("</section>")[0]
    assert questions.count(f"<b>{asked.asks}</b>") == 1
    first = questions.split("question-line")[1]
    assert "pressing" in first
    assert "Emergency, now" in first
    assert "to surgeon" in first
    assert page.index("questions") < page.index("Worn now")


def test_an_answered_flag_of_the_last_visit_stays_with_its_answer() -> None:
    made = signed(**BLACK)
    surgeon = UserFactory(role=Role.SURGEON, first_name="Fern", last_name="Larkspur")
    for one in Referral.objects.all():
        answer_referral(referral=one, answer="Seen, it bleeds.", by=surgeon, at=timezone.now())
    page = record(of(made))
    assert "Emergency, now: answered" in page
    assert "Seen, it bleeds." in page
    assert 'question-line pressing"' not in page
    signed_again(made, 3)
    assert "Seen, it bleeds." not in record(of(made))


def test_a_red_flag_that_was_not_referred_says_why() -> None:
    draft = AssessmentFactory(**BLACK)
    accept(draft)
    flag = Decision.objects.filter(key__startswith="refer:")[0]
    Decision.objects.filter(pk=flag.pk).update(choice="dropped", reason="Seen by the surgeon today")
    sign(draft)
    page = record(of(draft))
    assert "Red flag of 6 May 2025. Not referred: Seen by the surgeon today" in page


def test_a_danger_of_an_unsigned_visit_is_there() -> None:
    draft = AssessmentFactory(leaking=True)
    Alarm.objects.create(
        assessment=draft, urgency="same_day", headline="Call the surgeon.", since=timezone.now()
    )
    page = record(of(draft))
    assert "Call the surgeon." in page
    assert "in a visit that is not signed" in page
    assert "Call the surgeon." not in record(of(AssessmentFactory()))


def test_after_registering_the_next_step_is_offered() -> None:
    client = Client()
    client.force_login(UserFactory(role=Role.NURSE))
    page = client.post(reverse("patients:register"), PERSON, follow=True).content.decode()
    assert primaries(page) == ["Next: add the stoma"]
    patient = Patient.objects.get()
    add = reverse("patients:stoma_add", args=[patient.uuid])
    assert f'class="button primary" href="{add}"' in page
    page = client.post(add, STOMA, follow=True).content.decode()
    assert primaries(page) == ["Start the first visit"]
    assert "Next: add the stoma" not in record(patient, Role.DESK)
    assert primaries(record(patient, Role.SURGEON)) == []


def test_each_stoma_has_its_block_and_the_one_due_first_its_button() -> None:
    made = signed(leaking=True)
    other = StomaFactory(patient=of(made), kind="colostomy", site="left lower")
    closed = StomaFactory(
        patient=of(made), kind="urostomy", site="right upper", closed_on=date(2025, 1, 2)
    )
    page = record(of(made))
    assert page.count('class="panel stoma-block"') == 2
    assert primaries(page) == [f"{START}: {made.stoma.short_name.lower()}"]
    assert page.count(reverse("visits:start", args=[other.uuid])) == 1
    assert reverse("visits:start", args=[closed.uuid]) not in page
    assert f"<b>{closed.short_name}</b>, closed 2 Jan 2025" in page


def queries(client: Client, patient: Patient) -> int:
    with CaptureQueriesContext(connection) as asked:
        client.get(reverse("patients:record", args=[patient.uuid]))
    return len(asked)


def test_many_visits_cost_no_more_queries_than_two(client: Client) -> None:
    client.force_login(UserFactory(role=Role.NURSE))
    made = signed(**BLACK)
    signed_again(made, 3, leaking=True)
    few = queries(client, of(made))
    for days in range(6, 15, 3):
        signed_again(made, days, leaking=True, measurement__colour="black_brown_grey")
    assert queries(client, of(made)) == few


def test_visits_are_listed_a_page_at_a_time() -> None:
    patient = PatientFactory()
    stoma = StomaFactory(patient=patient)
    for days in range(A_PAGE + 1):
        at = HAPPENED_AT + timedelta(days=days)
        ended(AssessmentFactory(stoma=stoma, visit=VisitFactory(patient=patient, happened_at=at)))
    first, second = record(patient), record(patient, visits="2")
    assert first.count('class="visit-day"') == A_PAGE
    assert second.count('class="visit-day"') == 1
    assert "<b>6 May 2025</b>" not in first
    assert "<b>6 May 2025</b>" in second


@pytest.mark.parametrize(
    ("role", "seen", "may_record"),
    [(Role.NURSE, True, True), (Role.SURGEON, True, False), (Role.DESK, False, False)],
)
def test_teaching_trials_and_the_marked_site_are_there_for_who_may_see_them(
    role: Role, seen: bool, may_record: bool
) -> None:
    stoma = StomaFactory(surgery_date=date(2024, 3, 9))
    closed = StomaFactory(patient=stoma.patient, closed_on=date(2025, 1, 2))
    TaughtPointFactory(stoma=stoma)
    marking = MarkedSiteFactory(marking__patient=stoma.patient).marking
    page = record(stoma.patient, role)
    for url in (
        reverse("teaching:show", args=[stoma.uuid]),
        reverse("trends:tried", args=[stoma.uuid]),
        reverse("trends:tried", args=[closed.uuid]),
        reverse("site_marking:show", args=[marking.uuid]),
    ):
        assert (url in page) is seen
    for url in (
        reverse("teaching:add", args=[stoma.uuid]),
        reverse("site_marking:add", args=[stoma.patient.uuid]),
    ):
        assert (url in page) is may_record
    assert reverse("teaching:show", args=[closed.uuid]) not in page


def test_every_stoma_has_its_own_teaching() -> None:
    stoma = StomaFactory()
    other = StomaFactory(patient=stoma.patient)
    TaughtPointFactory(stoma=stoma, level=Level.ALONE)
    found = teaching_of_each([stoma, other])
    assert [len(found[one.pk].missing) for one in (stoma, other)] == [15, 16]
