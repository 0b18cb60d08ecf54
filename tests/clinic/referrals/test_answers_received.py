"""Answers that came by telephone or letter; an urgent referral then calls no one."""

import pytest
from django.db import IntegrityError, transaction
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role, User
from clinic.audit.models import AccessLog
from clinic.referrals.actions.answer import answer_referral, record_received
from clinic.referrals.models import CameBy, Referral
from clinic.referrals.presenters.waiting import row_of
from clinic.referrals.queries import waiting
from clinic.visits.policies import NotAllowedNow
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db

TELEPHONE = "Telephone now: saving does not notify anyone."
GIVEN = {"answer_from": "Dr Hazel Quill", "came_by": "telephone", "received": "Warm; go on."}


@pytest.fixture
def nurse() -> User:
    made: User = UserFactory(role=Role.NURSE, first_name="Fern", last_name="Larkspur")
    return made


def asked_by(nurse: User, urgency: str = "emergency") -> Referral:
    return Referral.objects.create(
        assessment=AssessmentFactory(leaking=True),
        to="family doctor",
        urgency=urgency,
        question="Is this a separation?",
        made_at=timezone.now(),
        made_by=nurse,
    )


def opened(client: Client, user: User, asked: Referral) -> str:
    client.force_login(user)
    return client.get(reverse("referrals:referral", args=[asked.uuid])).content.decode()


def test_who_asked_records_an_answer_and_it_waits_no_more(client: Client, nurse: User) -> None:
    asked = asked_by(nurse)
    assert "Record an answer received" in opened(client, nurse, asked)
    address = reverse("referrals:received", args=[asked.uuid])
    kept = client.post(address, {"received": "Warm; go on."})
    assert kept.status_code == 422
    shown = kept.content.decode()
    for words in ("Warm; go on.", "Write who answered.", "Choose how it came."):
        assert words in shown
    client.post(address, GIVEN)
    said = f"Dr Hazel Quill; recorded by {nurse.display_name}, came by telephone"
    assert said in opened(client, nurse, asked)
    assert said in client.get(reverse("referrals:referrals") + "?show=answered").content.decode()
    assert not waiting().exists()
    line = AccessLog.objects.get(action="recorded answer received")
    assert (line.subject_uuid, line.detail) == (asked.uuid, "telephone")
    asked.refresh_from_db()
    assert asked.seen_by is None
    assert not Referral.objects.answered_unread(nurse.pk).exists()


def test_a_colleague_records_one_and_it_is_news_to_who_asked(client: Client, nurse: User) -> None:
    asked = asked_by(nurse)
    colleague = UserFactory(role=Role.NURSE)
    assert f"as a new answer to {nurse.display_name}" in opened(client, colleague, asked)
    address = reverse("referrals:received", args=[asked.uuid])
    assert client.post(address, {"received": "Warm; go on."}).status_code == 422
    client.post(address, {**GIVEN, "came_by": "letter"})
    assert not waiting().exists()
    line = AccessLog.objects.get(action="recorded answer received")
    assert (line.actor_id, line.detail) == (colleague.pk, "letter")
    assert Referral.objects.answered_unread(nurse.pk).get() == asked
    said = f"Dr Hazel Quill; recorded by {colleague.display_name}, came by letter"
    client.force_login(nurse)
    assert said in client.get(reverse("clinic_day:day")).content.decode()
    assert said in opened(client, nurse, asked)
    assert not Referral.objects.answered_unread(nurse.pk).exists()


@pytest.mark.parametrize("role", [Role.SURGEON, Role.LEAD, Role.DESK])
def test_who_does_not_chart_records_none(client: Client, nurse: User, role: Role) -> None:
    asked, other = asked_by(nurse), UserFactory(role=role)
    assert "Record an answer received" not in opened(client, other, asked)
    client.force_login(other)
    address = reverse("referrals:received", args=[asked.uuid])
    assert client.post(address, GIVEN).status_code == 403
    with pytest.raises(NotAllowedNow, match="users who chart"):
        record_received(
            referral=asked,
            answer="Warm.",
            answer_from="Dr Hazel Quill",
            came_by=CameBy.TELEPHONE,
            by=other,
            at=timezone.now(),
        )
    assert waiting().get() == asked


def test_no_answer_is_written_over(nurse: User) -> None:
    asked = asked_by(nurse)
    surgeon = UserFactory(role=Role.SURGEON)
    answer_referral(referral=asked, answer="Come now.", by=surgeon, at=timezone.now())
    with pytest.raises(NotAllowedNow, match="answered already"):
        record_received(
            referral=asked,
            answer="No.",
            answer_from="Dr Hazel Quill",
            came_by=CameBy.LETTER,
            by=nurse,
            at=timezone.now(),
        )
    asked.refresh_from_db()
    assert (asked.answer, asked.who_answered) == ("Come now.", surgeon.display_name)


@pytest.mark.parametrize("half", [{"came_by": "letter"}, {"answer_from": "Dr Quill"}])
def test_from_whom_and_how_go_together(nurse: User, half: dict[str, str]) -> None:
    asked = asked_by(nurse)
    whole = {"answered_at": timezone.now(), "answered_by": nurse, "answer": "Yes."}
    with pytest.raises(IntegrityError), transaction.atomic():
        Referral.objects.filter(pk=asked.pk).update(**whole, **half)
    with pytest.raises(IntegrityError), transaction.atomic():
        Referral.objects.filter(pk=asked.pk).update(answer_from="Dr Quill", came_by="letter")


@pytest.mark.parametrize(
    ("urgency", "calls"),
    [
        ("emergency", True),
        ("same_day", True),
        ("telephone", True),
        ("days", False),
        ("routine", False),
    ],
)
def test_what_presses_says_to_telephone(
    client: Client, nurse: User, urgency: str, calls: bool
) -> None:
    asked = asked_by(nurse, urgency)
    shown = opened(client, nurse, asked)
    assert (TELEPHONE in shown) is calls
    assert shown.count(reverse("documents:letter", args=[asked.uuid])) == 1
    # Users who may answer are not asked to call, and find the letter too.
    surgeons = opened(client, UserFactory(role=Role.SURGEON), asked)
    assert TELEPHONE not in surgeons
    assert surgeons.count(reverse("documents:letter", args=[asked.uuid])) == 1
    answer_referral(
        referral=asked, answer="Seen.", by=UserFactory(role=Role.SURGEON), at=timezone.now()
    )
    assert TELEPHONE not in opened(client, nurse, asked)


def test_the_form_says_so_before_it_is_sent(client: Client, nurse: User) -> None:
    client.force_login(nurse)
    about = AssessmentFactory(leaking=True)
    assert TELEPHONE in client.get(reverse("referrals:refer", args=[about.uuid])).content.decode()


def test_opened_says_no_more_than_is_known(nurse: User) -> None:
    words = "Referral not opened yet by anyone who may answer"
    assert row_of(asked_by(nurse), timezone.now()).seen == words
