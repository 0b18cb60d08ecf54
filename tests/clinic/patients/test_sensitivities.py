"""Asked and none known, known, or not asked: three answers, said apart and kept apart."""

import re

import pytest
from django.core.exceptions import ValidationError
from django.db import DatabaseError, transaction
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role, User
from clinic.audit.models import AccessLog
from clinic.patients.actions import add_sensitivity, answer_sensitivities, remove_sensitivity
from clinic.patients.models import Patient, Removal, Sensitivity
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory, SensitivityFactory

pytestmark = pytest.mark.django_db
PASTE = {"material": "paste", "reaction": "Itching"}


@pytest.fixture
def nurse() -> User:
    return UserFactory(role=Role.NURSE)


@pytest.fixture
def desk(nurse: User) -> Client:
    """Where the nurse sits."""
    client = Client()
    client.force_login(nurse)
    return client


def asked(patient: Patient) -> str:
    return reverse("patients:sensitivities_asked", args=[patient.uuid])


def answer(client: Client, patient: Patient, said: str) -> str:
    """Where the answer leads; the page itself where it stays."""
    seen = client.get(asked(patient)).context["form"]["seen"].value()
    page = client.post(asked(patient), {"no_known_sensitivities": said, "seen": seen})
    return page.get("Location") or page.content.decode()


@pytest.mark.parametrize(("said", "stored"), [("yes", True), ("no", False), ("unknown", None)])
def test_each_answer_is_kept(desk: Client, said: str, stored: bool | None) -> None:
    patient = PatientFactory(no_known_sensitivities=None if stored else False)
    onward = answer(desk, patient, said)
    patient.refresh_from_db()
    assert patient.no_known_sensitivities is stored
    page = "sensitivity_add" if stored is False else "record"
    assert onward == reverse(f"patients:{page}", args=[patient.uuid])


def test_an_answer_is_on_record(desk: Client) -> None:
    patient = PatientFactory()
    answer(desk, patient, "yes")
    row = AccessLog.objects.get(action="corrected")
    assert (row.patient_uuid, row.detail) == (patient.uuid, "no_known_sensitivities")
    events = patient.events.order_by("pgh_id").values_list("no_known_sensitivities", flat=True)
    assert list(events) == [None, True]


def test_each_answer_has_words_of_its_own(desk: Client) -> None:
    people = [PatientFactory(no_known_sensitivities=kept) for kept in (True, False, None)]
    people.append(SensitivityFactory().patient)
    words = []
    for patient in people:
        page = desk.get(reverse("patients:record", args=[patient.uuid])).content.decode()
        banner = page[page.index("patient-sensitivities") :].split("</p>")[0]
        words.append(banner.split(">", 1)[1].strip())
    assert words[:3] == [
        "Asked: no known sensitivities",
        "<b>Sensitive:</b> to what is not recorded yet",
        "Sensitivities not recorded: ask",
    ]
    assert words[3].startswith("<b>Sensitive to:</b>")


def test_none_known_is_refused_beside_a_recorded_one(desk: Client, nurse: User) -> None:
    patient = SensitivityFactory().patient
    assert "A sensitivity is on record. Remove it first" in answer(desk, patient, "yes")
    with pytest.raises(ValidationError, match="Remove it first"):
        answer_sensitivities(patient=patient, by=nurse, none_known=True)
    patient.refresh_from_db()
    assert patient.no_known_sensitivities is None


def test_the_page_shows_what_is_on_record_not_what_was_refused(desk: Client) -> None:
    patient = SensitivityFactory().patient
    page = answer(desk, patient, "yes")
    assert "Sensitive to:" in page
    chosen = re.findall(r'value="(\w+)"[^>]* checked', page)
    assert chosen == ["yes"]


def test_a_sensitivity_found_later_ends_none_known(nurse: User) -> None:
    patient = PatientFactory(no_known_sensitivities=True)
    add_sensitivity(patient=patient, by=nurse, values=PASTE)
    patient.refresh_from_db()
    assert patient.no_known_sensitivities is False


def test_with_the_last_one_removed_the_question_is_open(nurse: User) -> None:
    patient = PatientFactory(no_known_sensitivities=True)
    first, second = (
        add_sensitivity(patient=patient, by=nurse, values={**PASTE, "material": material})
        for material in ("paste", "tape")
    )
    kept = []
    for one in (first, second):
        remove_sensitivity(sensitivity=one, by=nurse, why=Removal.MISTAKE)
        patient.refresh_from_db()
        kept.append(patient.no_known_sensitivities)
    assert kept == [False, None]


def test_the_database_refuses_the_contradiction_from_either_side() -> None:
    patient = SensitivityFactory().patient
    with pytest.raises(DatabaseError, match="beside a recorded one"), transaction.atomic():
        Patient.objects.filter(pk=patient.pk).update(no_known_sensitivities=True)
    asked_and_none = PatientFactory(no_known_sensitivities=True)
    with pytest.raises(DatabaseError, match="beside no known"), transaction.atomic():
        Sensitivity.objects.create(patient=asked_and_none, **PASTE)


def test_a_change_in_the_meantime_is_said_on_the_page(
    desk: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Between the form's look and the action's lock somebody records a sensitivity."""
    patient = SensitivityFactory().patient
    monkeypatch.setattr(
        "clinic.patients.forms.AskedForm.clean_no_known_sensitivities",
        lambda form: form.cleaned_data["no_known_sensitivities"],
    )
    assert "A sensitivity is on record. Remove it first" in answer(desk, patient, "yes")
