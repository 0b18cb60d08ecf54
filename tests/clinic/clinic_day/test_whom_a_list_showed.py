"""Who was shown whom by a list: on the trail once a day, not at each opening."""

from __future__ import annotations

from collections import Counter
from datetime import timedelta

import pytest
from django.db import connection
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role, User
from clinic.audit.models import AccessLog
from clinic.patients.models import Patient
from clinic.referrals.models import Alarm
from tests.clinic.clinic_day.test_clinic_day import due
from tests.factories.accounts import UserFactory
from tests.factories.tasks import TaskFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db
TODAY = timezone.localdate


def shown_to(user: User, by: str) -> Counter[Patient]:
    rows = AccessLog.objects.filter(actor_id=user.pk, action="listed", subject_kind=by)
    ids = rows.values_list("patient_uuid", flat=True)
    return Counter(Patient.objects.get(uuid=one) for one in ids if one)


def test_everyone_on_the_page_is_on_the_trail_once_a_day(client: Client) -> None:
    """Due, overdue, coming, with a referral, with an alarm, in a draft, in a task."""
    late, danger = due(TODAY() - timedelta(3)), {"measurement__colour": "black_brown_grey"}
    people = [
        late.stoma.patient,
        due(TODAY()).stoma.patient,
        due(TODAY() + timedelta(2)).stoma.patient,
        due(TODAY() + timedelta(300), leaking=True, **danger).stoma.patient,
        TaskFactory(day=TODAY()).patient,
        AssessmentFactory().visit.patient,
    ]
    alarmed = AssessmentFactory()
    Alarm.objects.create(
        assessment=alarmed, urgency="emergency", headline="x", since=timezone.now()
    )
    away = due(TODAY() + timedelta(300)).stoma.patient
    nurse, desk = UserFactory(role=Role.NURSE), UserFactory(role=Role.DESK)
    for user in (nurse, nurse, desk):
        client.force_login(user)
        page = client.get(reverse("clinic_day:day")).content.decode()
    everyone = Counter([*people, alarmed.visit.patient])
    assert shown_to(nurse, "clinic day") == everyone
    assert away not in everyone
    # The desk sees who comes, and no more.
    assert shown_to(desk, "clinic day") == Counter(people[:3])
    assert all(one.list_name in page for one in people[:3])


def test_on_another_day_it_is_written_again(client: Client) -> None:
    patient, nurse = due(TODAY()).stoma.patient, UserFactory(role=Role.NURSE)
    client.force_login(nurse)
    client.get(reverse("clinic_day:day"))
    assert shown_to(nurse, "clinic day") == {patient: 1}
    with connection.cursor() as cursor:
        cursor.execute("SET LOCAL session_replication_role = replica")  # the trail refuses it
        AccessLog.objects.update(at=timezone.now() - timedelta(days=1))
        cursor.execute("SET LOCAL session_replication_role = origin")
    client.get(reverse("clinic_day:day"))
    assert shown_to(nurse, "clinic day") == {patient: 2}


def test_so_do_the_referrals_and_the_sheets_of_a_day(client: Client) -> None:
    one = due(TODAY(), leaking=True, measurement__colour="black_brown_grey")
    nurse = UserFactory(role=Role.NURSE)
    client.force_login(nurse)
    for _ in range(2):
        client.get(reverse("referrals:referrals"))
        client.get(reverse("documents:day_sheets"))
    for by in ("referrals", "day's sheets"):
        assert shown_to(nurse, by) == {one.stoma.patient: 1}, by
