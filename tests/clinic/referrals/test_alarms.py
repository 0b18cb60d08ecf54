"""A danger in a visit that no one signs does not sit unseen."""

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role
from clinic.referrals.models import Alarm, Referral
from clinic.referrals.queries import alarms
from clinic.visits.models import Assessment
from tests.clinic.plans.signed_visits import accept, posted_page, sign
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db

LINE = "unsigned visit with a red flag"


def client_of(role: Role) -> Client:
    client = Client()
    client.force_login(UserFactory(role=role))
    return client


def save(client: Client, assessment: Assessment, **changes: object) -> None:
    data = posted_page(assessment, **changes)
    answer = client.post(
        reverse("charting:save", args=[assessment.uuid]),
        data.urlencode(),
        content_type="application/x-www-form-urlencoded",
    )
    assert answer.status_code in (302, 422)


@pytest.fixture
def draft() -> Assessment:
    made: Assessment = AssessmentFactory(leaking=True)
    return made


def test_a_black_stoma_is_on_every_clinicians_page_until_signed(draft: Assessment) -> None:
    nurse = client_of(Role.NURSE)
    save(nurse, draft, **{"stoma-colour": "black_brown_grey"})
    assert Alarm.objects.get().urgency == "emergency"
    for role in (Role.NURSE, Role.SURGEON, Role.LEAD):
        page = client_of(role).get("/").content.decode()
        assert LINE in page
        assert draft.visit.patient.list_name in page
    accept(draft)
    sign(draft)
    assert not Alarm.objects.exists()
    assert LINE not in client_of(Role.SURGEON).get("/").content.decode()


def test_who_was_asked_from_the_draft_ends_it(draft: Assessment) -> None:
    save(client_of(Role.NURSE), draft, **{"stoma-colour": "black_brown_grey"})
    Referral.objects.create(
        assessment=draft,
        to="surgeon",
        urgency="emergency",
        question="Black.",
        made_at=timezone.now(),
        made_by=draft.visit.clinician,
    )
    assert not alarms()


def test_the_desk_sees_nothing_of_it(draft: Assessment) -> None:
    save(client_of(Role.NURSE), draft, **{"stoma-colour": "black_brown_grey"})
    page = client_of(Role.DESK).get("/").content.decode()
    assert LINE not in page
    assert "dangerous" not in page


def test_a_corrected_entry_ends_it(draft: Assessment) -> None:
    nurse = client_of(Role.NURSE)
    save(nurse, draft, **{"stoma-colour": "black_brown_grey"})
    save(nurse, draft, **{"stoma-colour": "pink_red"})
    assert not Alarm.objects.exists()


def test_a_leak_raises_none(draft: Assessment) -> None:
    save(client_of(Role.NURSE), draft, **{"stoma-length_mm": "31"})
    assert not alarms()
