"""Error pages: plain words, no record contents, and they work when little else does."""

import pytest
from django.test import Client, RequestFactory
from django.urls import reverse
from pytest_django import DjangoAssertNumQueries

from clinic.accounts.errors import server_error
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory

pytestmark = pytest.mark.django_db


def test_a_missing_record_is_not_found(client: Client) -> None:
    client.force_login(UserFactory())
    page = client.get("/patients/5f0c0d0e-0000-4000-8000-000000000000/")
    assert page.status_code == 404
    assert "No such page" in page.content.decode()


def test_a_failure_shows_nothing_of_the_record(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    patient = PatientFactory(family_name="Owlsworth")
    client.force_login(UserFactory())

    def fail(*given: object) -> None:
        raise RuntimeError(patient.family_name)

    monkeypatch.setattr("clinic.patient_record.views.clinical_page", fail)
    client.raise_request_exception = False
    page = client.get(reverse("patients:record", args=[patient.uuid]))
    assert page.status_code == 500
    assert "Owlsworth" not in page.content.decode()
    assert "This is not your fault" in page.content.decode()


def test_the_failure_page_asks_nothing_of_the_database(
    django_assert_num_queries: DjangoAssertNumQueries, rf: RequestFactory
) -> None:
    with django_assert_num_queries(0):
        assert server_error(rf.get("/")).status_code == 500


def test_an_outdated_form_is_explained() -> None:
    client = Client(enforce_csrf_checks=True)
    client.force_login(UserFactory())
    page = client.post(reverse("patients:results"), {"words": "x"})
    assert page.status_code == 403
    assert "open too long" in page.content.decode()
