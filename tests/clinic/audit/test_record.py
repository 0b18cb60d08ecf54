"""The access log: written by one function, never changed."""

import pytest
from django.contrib.auth.models import AnonymousUser
from django.db import DatabaseError, transaction
from django.test import RequestFactory
from pytest_django import Settings

from clinic.audit.models import AccessLog
from clinic.audit.record import record
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory, StomaFactory

pytestmark = pytest.mark.django_db


def test_the_row_names_actor_subject_and_patient() -> None:
    nurse = UserFactory(first_name="Ada", last_name="Quill")
    stoma = StomaFactory()
    record(request_or_actor=nurse, action="viewed", subject=stoma, detail="why")
    row = AccessLog.objects.get()
    assert row.actor_id == nurse.pk
    assert row.actor_words == "Ada Quill, stoma-care nurse"
    assert (row.action, row.subject_kind, row.detail) == ("viewed", "stoma", "why")
    assert (row.subject_uuid, row.patient_uuid) == (stoma.uuid, stoma.patient.uuid)
    assert row.remote_address is None


def test_a_patient_is_their_own_patient() -> None:
    patient = PatientFactory()
    record(request_or_actor=None, action="viewed", subject=patient)
    row = AccessLog.objects.get()
    assert row.subject_uuid == row.patient_uuid == patient.uuid
    assert row.actor_words == "nobody signed in"


def test_a_request_gives_the_address() -> None:
    request = RequestFactory().get("/", REMOTE_ADDR="192.0.2.7")
    request.user = AnonymousUser()
    record(request_or_actor=request, action="viewed", subject="page")
    row = AccessLog.objects.get()
    assert (row.actor_id, row.remote_address) == (None, "192.0.2.7")


def test_behind_a_proxy_only_its_own_entry_counts(settings: Settings) -> None:
    settings.ALLAUTH_TRUSTED_PROXY_COUNT = 1
    request = RequestFactory().get("/", HTTP_X_FORWARDED_FOR="203.0.113.9, 192.0.2.8")
    request.user = AnonymousUser()
    record(request_or_actor=request, action="viewed", subject="page")
    assert AccessLog.objects.get().remote_address == "192.0.2.8"


@pytest.mark.parametrize("told", ["", "unknown", "192.0.2.8, somewhere"])
def test_an_address_that_is_none_is_not_recorded(settings: Settings, told: str) -> None:
    settings.ALLAUTH_TRUSTED_PROXY_COUNT = 1
    request = RequestFactory().get("/", HTTP_X_FORWARDED_FOR=told)
    request.user = AnonymousUser()
    record(request_or_actor=request, action="viewed", subject="page")
    assert AccessLog.objects.get().remote_address is None


def test_the_database_refuses_to_change_or_delete_a_row() -> None:
    record(request_or_actor=None, action="viewed", subject="page")
    with pytest.raises(DatabaseError, match="Cannot update or delete"), transaction.atomic():
        AccessLog.objects.update(action="nothing")
    with pytest.raises(DatabaseError, match="Cannot update or delete"), transaction.atomic():
        AccessLog.objects.all().delete()
    assert AccessLog.objects.get().action == "viewed"
