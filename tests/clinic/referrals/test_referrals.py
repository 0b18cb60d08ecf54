"""Referrals: the words they begin with, who must see them, who has, and how late they are."""

from datetime import datetime, timedelta
from typing import Any
from uuid import uuid4

import pytest
from django.db import IntegrityError
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role, User
from clinic.audit.models import AccessLog
from clinic.plans.models import Decision
from clinic.referrals.actions.answer import answer_referral, mark_seen
from clinic.referrals.actions.refer import refer
from clinic.referrals.models import Referral, Urgency
from clinic.referrals.presenters.question import own_question
from clinic.referrals.presenters.waiting import row_of
from clinic.referrals.queries import pressing, waiting
from clinic.visits.actions.start import discard_visit
from clinic.visits.policies import NotAllowedNow
from tests.clinic.plans.signed_visits import accept, referred, reread, sign, signed
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db


def waits(urgency: str, made: datetime | None = None, **more: Any) -> Referral:
    """A referral of its own that no one has answered."""
    assessment = more.pop("assessment", None) or AssessmentFactory(leaking=True)
    return Referral.objects.create(
        assessment=assessment,
        to="surgeon",
        urgency=urgency,
        question="Is this a separation?",
        made_at=made or timezone.now(),
        made_by=more.pop("by", None) or UserFactory(),
    )


def page(client: Client, user: User, name: str = "clinic_day:day", **post: str) -> str:
    client.force_login(user)
    answer = client.post(reverse(name), post) if post else client.get(reverse(name))
    return answer.content.decode()


def test_the_question_carries_the_figures_it_rests_on() -> None:
    question = referred().question
    assert "What do you advise?" in question.splitlines()[0]
    assert "Because:" in question
    assert "length 30 mm" in question
    assert "protrusion 24 mm" in question
    assert "Skin: raw, shallow erosion" in question
    assert "700 mL/24 h" in question


def test_what_lies_all_round_is_said_so() -> None:
    everywhere = list(range(1, 13))
    found = AssessmentFactory(
        leaking=True,
        system__leak_hours=everywhere,
        system__erosion_hours=[5, 6],
        abdomen__bulge="present",
        abdomen__bulge_hours=everywhere,
    )
    question = own_question(reread(found))
    assert "barrier melted at: 5 to 6 o'clock; leaked under it all round" in question
    assert "at all round" not in question


def test_what_was_not_recorded_has_no_figure() -> None:
    bare = AssessmentFactory()
    assert own_question(bare).endswith("- Nothing recorded yet.")
    leaking = AssessmentFactory(leaking=True, output__volume_ml_24h=None)
    assert "mL/24 h" not in own_question(reread(leaking))


def test_the_nurses_own_words_ask_and_the_figures_go_along() -> None:
    assessment = AssessmentFactory(leaking=True, measurement__colour="black_brown_grey")
    accept(assessment)
    flag = Decision.objects.filter(assessment=assessment, key__startswith="refer:")[0]
    flag.choice, flag.reason = "changed", "Seen together"
    flag.changed_to = "Could you look at it this afternoon?"
    flag.save()
    sign(assessment)
    asked = Referral.objects.get(assessment=assessment, flag_key=flag.key.removeprefix("refer:"))
    assert asked.asks == "Could you look at it this afternoon?"
    assert f"- {flag.text}" in asked.question
    assert "length 30 mm" in asked.question


def test_a_nurse_refers_without_a_red_flag(client: Client) -> None:
    nurse, about = UserFactory(role=Role.NURSE), AssessmentFactory(leaking=True)
    client.force_login(nurse)
    address = reverse("referrals:refer", args=[about.uuid])
    shown = client.get(address)
    assert "length 30 mm" in shown.content.decode()
    assert shown.context["form"]["urgency"].value() is None
    kept = client.post(address, {"question": "Is it healing?", "to": ""})
    assert kept.status_code == 422
    assert "Is it healing?" in kept.content.decode()
    assert "Choose how urgent" in kept.content.decode()
    client.post(address, {"question": "Is it healing?", "to": "Surgeon", "urgency": "days"})
    made = Referral.objects.get(assessment=about)
    assert (made.made_by, made.urgency, made.flag_key) == (nurse, "days", "")
    assert AccessLog.objects.filter(action="referred", subject_uuid=made.uuid).exists()


def test_the_form_sent_twice_asks_once(client: Client) -> None:
    about = AssessmentFactory(leaking=True)
    client.force_login(UserFactory(role=Role.NURSE))
    address = reverse("referrals:refer", args=[about.uuid])
    asked = {"once": str(uuid4()), "to": "Surgeon", "urgency": "days"}
    first, second = (client.post(address, asked | {"question": "Is it healing?"}) for _ in "12")
    made = Referral.objects.get(assessment=about)
    assert (
        first["Location"] == second["Location"] == reverse("referrals:referral", args=[made.uuid])
    )
    assert AccessLog.objects.filter(action="referred").count() == 1


def test_a_key_of_ones_own_making_or_another_referrals_still_asks(client: Client) -> None:
    theirs, about = waits("days"), AssessmentFactory(leaking=True)
    client.force_login(UserFactory(role=Role.NURSE))
    address = reverse("referrals:refer", args=[about.uuid])
    asked = {"question": "Is it healing?", "to": "Surgeon", "urgency": "days"}
    for key in ("nonsense", str(theirs.uuid)):
        client.post(address, asked | {"once": key})
    assert Referral.objects.filter(assessment=about).count() == 2


def test_two_of_ones_own_from_one_visit_but_one_a_flag() -> None:
    about = AssessmentFactory(leaking=True)
    waits("days", assessment=about)
    waits("days", assessment=about)
    flagged = referred()
    flagged.pk, flagged.uuid = None, waits("days").assessment.uuid
    with pytest.raises(IntegrityError):
        flagged.save(force_insert=True)


def test_a_discarded_visit_asks_nothing() -> None:
    about = AssessmentFactory(leaking=True)
    discard_visit(visit=about.visit, by=about.visit.clinician)
    with pytest.raises(NotAllowedNow):
        refer(
            assessment=reread(about),
            to="Surgeon",
            urgency=Urgency.DAYS,
            question="Any idea?",
            by=about.visit.clinician,
            at=timezone.now(),
        )


def test_a_referral_from_a_draft_that_was_discarded_still_opens(client: Client) -> None:
    asked = waits("days")
    visit = asked.assessment.visit
    discard_visit(visit=visit, by=visit.clinician)
    client.force_login(UserFactory(role=Role.SURGEON))
    shown = client.get(reverse("referrals:referral", args=[asked.uuid])).content.decode()
    assert "draft visit was discarded" in shown
    assert reverse("charting:visit", args=[visit.uuid]) not in shown


def test_by_urgency_then_by_age() -> None:
    now = timezone.now()
    routine = waits("routine", now - timedelta(days=30))
    younger = waits("same_day", now - timedelta(hours=1))
    older = waits("same_day", now - timedelta(hours=2))
    call = waits("telephone", now - timedelta(hours=3))
    emergency = waits("emergency", now)
    assert list(waiting()) == [emergency, older, younger, call, routine]


@pytest.mark.parametrize(
    ("urgency", "days", "late"),
    [
        ("emergency", 0, "needs an answer now"),
        ("same_day", 0, ""),
        ("same_day", 1, "1 day overdue"),
        ("telephone", 0, ""),
        ("telephone", 1, "1 day overdue"),
        ("days", 3, ""),
        ("days", 4, "1 day overdue"),
        ("two_weeks", 14, ""),
        ("two_weeks", 16, "2 days overdue"),
        ("routine", 400, ""),
    ],
)
def test_late_for_its_urgency(urgency: str, days: int, late: str) -> None:
    now = timezone.now()
    assert row_of(waits(urgency, now - timedelta(days=days)), now).late == late


def test_what_was_answered_is_not_late() -> None:
    asked = waits("emergency")
    by = UserFactory(role=Role.SURGEON)
    answered = answer_referral(referral=asked, answer="Come now.", by=by, at=timezone.now())
    assert row_of(answered, timezone.now() + timedelta(days=9)).late == ""


@pytest.mark.parametrize("role", [Role.NURSE, Role.SURGEON, Role.LEAD])
def test_an_emergency_is_on_every_clinicians_first_page(client: Client, role: Role) -> None:
    asked = waits("emergency")
    shown = page(client, UserFactory(role=role))
    assert "1 urgent referral without an answer" in shown
    assert "Emergency, now: referral without an answer" in shown
    assert asked.question in shown


def test_the_front_desk_sees_nothing_of_it(client: Client) -> None:
    waits("emergency")
    shown = page(client, UserFactory(role=Role.DESK))
    assert "eferral" not in shown
    assert "separation" not in shown


@pytest.mark.parametrize("urgency", ["same_day", "telephone"])
def test_a_question_for_the_day_presses_once_its_day_is_over(client: Client, urgency: str) -> None:
    nurse = UserFactory(role=Role.NURSE)
    asked = waits(urgency)
    assert "urgent referral" not in page(client, nurse)
    Referral.objects.filter(pk=asked.pk).update(made_at=timezone.now() - timedelta(days=1))
    assert "1 urgent referral without an answer" in page(client, nurse)
    assert list(pressing(timezone.localdate())) == [asked]


def test_the_line_is_on_other_pages_and_goes_with_the_answer(client: Client) -> None:
    asked, surgeon = waits("emergency"), UserFactory(role=Role.SURGEON)
    assert "1 urgent referral without" in page(client, surgeon, "patients:find")
    answer_referral(referral=asked, answer="Send her in.", by=surgeon, at=timezone.now())
    assert "urgent referral" not in page(client, surgeon, "patients:find")


def test_the_first_look_of_a_user_who_may_answer_is_kept_and_shown(client: Client) -> None:
    nurse = UserFactory(role=Role.NURSE)
    asked = waits("days", by=nurse)
    address = reverse("referrals:referral", args=[asked.uuid])
    for role in (Role.LEAD, Role.NURSE):
        client.force_login(UserFactory(role=role))
        client.get(address)
    asked.refresh_from_db()
    assert not asked.seen_at
    first, second = UserFactory(role=Role.SURGEON), UserFactory(role=Role.SURGEON)
    for surgeon in (first, second):
        client.force_login(surgeon)
        client.get(address)
    asked.refresh_from_db()
    assert asked.seen_by == first
    client.force_login(nurse)
    assert f"Opened by {first.display_name}" in client.get(address).content.decode()


def test_a_look_after_the_answer_is_not_the_first() -> None:
    asked, surgeon = waits("days"), UserFactory(role=Role.SURGEON)
    answered = answer_referral(referral=asked, answer="Yes.", by=surgeon, at=timezone.now())
    mark_seen(referral=answered, by=UserFactory(role=Role.SURGEON), at=timezone.now())
    answered.refresh_from_db()
    assert answered.seen_by == surgeon


def test_every_change_is_in_the_history() -> None:
    asked, surgeon = waits("days"), UserFactory(role=Role.SURGEON)
    mark_seen(referral=asked, by=surgeon, at=timezone.now())
    answer_referral(referral=asked, answer="Yes.", by=surgeon, at=timezone.now())
    history: Any = asked
    labels = list(history.events.order_by("pgh_id").values_list("pgh_label", "answer"))
    assert labels == [("insert", ""), ("update", ""), ("update", "Yes.")]


def test_answered_unanswered_and_my_own(client: Client) -> None:
    nurse, surgeon = UserFactory(role=Role.NURSE), UserFactory(role=Role.SURGEON)
    open_one, done = waits("days", by=nurse), waits("days")
    answer_referral(referral=done, answer="Wait and see.", by=surgeon, at=timezone.now())
    client.force_login(nurse)

    def shown(show: str) -> list[Referral]:
        answer = client.get(reverse("referrals:referrals"), {"show": show})
        return [row.referral for row in answer.context["rows"]]

    assert shown("waiting") == shown("nonsense") == [open_one]
    assert shown("answered") == [done]
    assert shown("mine") == [open_one]


def test_found_by_the_patients_name_without_it_standing_in_an_address(client: Client) -> None:
    asked = waits("days")
    other = waits("emergency")
    patient = asked.assessment.visit.patient
    client.force_login(UserFactory(role=Role.SURGEON))
    found = client.post(reverse("referrals:referrals"), {"words": patient.record_number})
    assert [row.referral for row in found.context["rows"]] == [asked]
    assert str(other.uuid) not in found.content.decode()
    assert found.headers.get("Location") is None
    assert AccessLog.objects.filter(action="searched", subject_kind="referrals").exists()


def test_a_long_list_comes_a_page_at_a_time(client: Client) -> None:
    about = signed()
    for _ in range(26):
        waits("days", assessment=about)
    client.force_login(UserFactory(role=Role.SURGEON))
    first = client.get(reverse("referrals:referrals"))
    last = client.get(reverse("referrals:referrals"), {"page": "2"})
    assert [len(one.context["rows"]) for one in (first, last)] == [25, 1]
    assert "page=2" in first.content.decode()
    assert "page=3" not in last.content.decode()


def test_the_answer_waits_on_the_senders_first_page_until_read(client: Client) -> None:
    nurse = UserFactory(role=Role.NURSE)
    asked, surgeon = waits("days", by=nurse), UserFactory(role=Role.SURGEON)
    answer_referral(referral=asked, answer="Leave the rod.", by=surgeon, at=timezone.now())
    assert "Leave the rod." in page(client, nurse)
    assert "Leave the rod." not in page(client, UserFactory(role=Role.NURSE))
    client.force_login(nurse)
    client.get(reverse("referrals:referral", args=[asked.uuid]))
    assert "Leave the rod." not in page(client, nurse)
