"""The lead reads the log, narrowed by patient, person and day; page by page."""

from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic import formatting
from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.audit.record import record
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def lead(client: Client) -> Client:
    client.force_login(UserFactory(role=Role.LEAD, first_name="Lena", last_name="Lead"))
    return client


def shown(client: Client, **asked: str) -> list[AccessLog]:
    return list(client.post(reverse("audit_trail:log"), asked).context["rows"])


def test_narrowed_by_patient(lead: Client) -> None:
    one, other = PatientFactory(record_number="A1"), PatientFactory(record_number="A2")
    for patient in (one, other):
        record(request_or_actor=None, action="viewed", subject=patient)
    assert [row.patient_uuid for row in shown(lead, record_number="a1 ")] == [one.uuid]


def test_narrowed_by_person(lead: Client) -> None:
    record(request_or_actor=UserFactory(last_name="Zed"), action="viewed", subject="page")
    assert [row.action for row in shown(lead, person="zed")] == ["viewed"]


def test_narrowed_by_day(lead: Client) -> None:
    record(request_or_actor=None, action="viewed", subject="page")
    today = timezone.localdate()
    tomorrow, yesterday = (formatting.day(today + timedelta(days=n)) for n in (1, -1))
    assert shown(lead, until=yesterday) == []
    assert shown(lead, since=tomorrow) == []
    assert shown(lead, since=formatting.day(today), until=formatting.day(today))


def test_a_wrong_day_is_said_and_kept(lead: Client) -> None:
    answer = lead.post(reverse("audit_trail:log"), {"since": "04/05/2024"})
    assert b"Write the month in letters" in answer.content
    assert b'value="04/05/2024"' in answer.content


def test_pages_keep_the_filter(lead: Client) -> None:
    for _ in range(60):
        record(request_or_actor=None, action="counted", subject="page")
    lead.get(reverse("audit_trail:log"))
    second = lead.post(reverse("audit_trail:log"), {"person": "nobody", "page": "2"})
    assert len(second.context["rows"]) == 10
    assert b'name="person" value="nobody"' in second.content


def test_reading_the_log_is_on_record(lead: Client) -> None:
    lead.get(reverse("audit_trail:log"))
    assert AccessLog.objects.filter(action="read", subject_kind="audit trail").count() == 1
