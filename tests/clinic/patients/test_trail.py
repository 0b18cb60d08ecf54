"""Every page that shows a record is on the trail, and none leaves a name in the history."""

import re

import pytest
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.patients.models import Sensitivity, Stoma
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory, SensitivityFactory, StomaFactory

pytestmark = pytest.mark.django_db
PAGES = (
    *("record", "correct", "sensitivities_asked", "sensitivity_add", "sensitivity_remove"),
    *("stoma_add", "stoma_correct", "stoma_close"),
)


@pytest.fixture
def nurse(client: Client) -> Client:
    client.force_login(UserFactory(role=Role.NURSE))
    return client


@pytest.fixture
def parts() -> tuple[Stoma, Sensitivity]:
    patient = PatientFactory(family_name="Thistledown", given_name="Ora", record_number="QX-7")
    return StomaFactory(patient=patient), SensitivityFactory(patient=patient)


def address(page: str, parts: tuple[Stoma, Sensitivity]) -> str:
    stoma, sensitivity = parts
    named = {"sensitivity_remove": [sensitivity.uuid]}
    named |= {name: [stoma.uuid] for name in ("stoma_correct", "stoma_close")}
    return reverse(f"patients:{page}", args=[stoma.patient.uuid, *named.get(page, [])])


@pytest.mark.parametrize("page", PAGES)
def test_opening_is_on_record(nurse: Client, parts: tuple[Stoma, Sensitivity], page: str) -> None:
    assert nurse.get(address(page, parts)).status_code == 200
    rows = AccessLog.objects.filter(patient_uuid=parts[0].patient.uuid)
    assert [row.action for row in rows] == ["viewed" if page == "record" else "opened to change"]


def test_a_form_sent_unseen_shows_the_record_and_is_on_record(
    nurse: Client, parts: tuple[Stoma, Sensitivity]
) -> None:
    nurse.post(address("stoma_correct", parts), {})
    assert AccessLog.objects.get(action="opened to change").subject_uuid == parts[0].uuid


def test_people_shown_as_alike_are_on_record(nurse: Client) -> None:
    known = PatientFactory(family_name="Wisp", given_name="Nell")
    data = {
        "record_number": "K-204",
        "family_name": "Wisp",
        "given_name": "Nell",
        "date_of_birth": known.date_of_birth.isoformat(),
        "sheet_language": "en",
    }
    nurse.post(reverse("patients:register"), data)
    assert AccessLog.objects.get(action="compared").patient_uuid == known.uuid


@pytest.mark.parametrize("page", PAGES)
def test_titles_name_no_one(nurse: Client, parts: tuple[Stoma, Sensitivity], page: str) -> None:
    """They stay in the browser's history, which the next person at the desk can read."""
    shown = nurse.get(address(page, parts)).content.decode()
    title = re.findall(r"<title>(.+?)</title>", shown)[0]
    words = ("Thistledown", "Ora", "QX-7", "leostomy", "lower", "paste")
    assert not [word for word in words if word in title]
    assert len(title.split(" – ")[0]) > 5
