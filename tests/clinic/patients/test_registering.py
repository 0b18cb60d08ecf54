"""Registering: little is asked at once, and no one is registered twice unnoticed."""

from datetime import date
from typing import Any

import pytest
from django.core.exceptions import ValidationError
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.patients import actions
from clinic.patients.duplicates import (
    NAME_AND_BIRTH,
    SAME_NUMBER_OF_RECORD,
    SAME_PHONE,
    alike,
    like_this_one,
)
from clinic.patients.models import Contacts, Patient, Whose
from clinic.patients.models.patient import NUMBER_IS_GIVEN
from clinic.patients.sound import sound_alike
from clinic.patients.views import registering
from tests.clinic.patients.test_contacts import row, rows
from tests.clinic.patients.test_pages import record_of, signed_in
from tests.clinic.patients.test_rules import PERSON
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory, TelephoneFactory

pytestmark = pytest.mark.django_db
REGISTER = "patients:register"


@pytest.fixture
def nurse() -> Client:
    return signed_in(Role.NURSE)


def register(client: Client, **changes: Any) -> Any:
    return client.post(reverse(REGISTER), {**PERSON, **changes})


def test_contacts_are_registered_along(nurse: Client) -> None:
    typed = rows(row(number="01632 960123", whose="patient"), row(number="07700 900 111"), row())
    register(nurse, **typed, **{"contacts-language_spoken": "Tamil"})
    patient = Patient.objects.get()
    assert patient.contacts.language_spoken == "Tamil"
    assert [one.number for one in patient.telephones.all()] == ["01632 960123", "07700 900 111"]


def test_without_contacts_none_are_recorded(nurse: Client) -> None:
    register(nurse, **row())
    assert not Contacts.objects.filter(patient=Patient.objects.get()).exists()


def test_wrong_contacts_register_no_one_and_open_their_fold(nurse: Client) -> None:
    page = register(nurse, **{"contacts-doctor_phone": "01632 960123"})
    assert not Patient.objects.exists()
    assert page.context["form"].more_is_open
    assert not page.context["form"].clinical_is_open
    assert not nurse.get(reverse(REGISTER)).context["form"].more_is_open


def test_somebody_alike_is_shown_and_ruled_out_with_one_press(nurse: Client) -> None:
    known = PatientFactory(family_name="Wisp", given_name="Nel", date_of_birth=date(1961, 4, 5))
    page = register(nurse).content.decode()
    assert "Is it one of these?" in page
    assert record_of(known) in page
    assert NAME_AND_BIRTH in page
    assert 'value="Wisp"' in page
    assert Patient.objects.count() == 1
    register(nurse, another_person="yes", ruled_out=[str(known.uuid)])
    assert Patient.objects.count() == 2
    said = AccessLog.objects.get(action="registered")
    assert said.detail == "1 similar, said to be other people"


def test_saying_no_counts_for_the_people_who_were_shown(nurse: Client) -> None:
    PatientFactory(family_name="Wisp", given_name="Nel", date_of_birth=date(1961, 4, 5))
    shown = PatientFactory(date_of_birth=date(1950, 1, 2))
    page = register(nurse, another_person="yes", ruled_out=[str(shown.uuid)])
    assert "Is it one of these?" in page.content.decode()
    assert Patient.objects.count() == 2


def test_the_same_telephone_is_noticed_however_it_is_written(nurse: Client) -> None:
    known = TelephoneFactory(
        number="+44 (0)1632 960123", patient__date_of_birth=date(1950, 1, 2)
    ).patient
    page = register(nurse, **row(number="(01632) 960-123")).content.decode()
    assert record_of(known) in page
    assert SAME_PHONE in page


@pytest.mark.parametrize(
    ("number", "whose"),
    [("01632 960124", Whose.PATIENT), ("960123", Whose.PATIENT), ("01632960123", Whose.CARE_HOME)],
)
def test_another_line_and_a_care_homes_say_nothing(number: str, whose: Whose) -> None:
    TelephoneFactory(number="01632 960123", whose=whose)
    found = alike(given_name="", family_name="", born=None, numbers=[number])
    assert found == []


def test_a_given_record_number_is_said_in_words_with_its_person(nurse: Client) -> None:
    known = PatientFactory(record_number="K-204", date_of_birth=date(1950, 1, 2))
    page = register(nurse).content.decode()
    assert NUMBER_IS_GIVEN in page
    assert SAME_NUMBER_OF_RECORD in page
    assert record_of(known) in page
    assert Patient.objects.count() == 1


def test_a_race_for_one_record_number_gives_words(
    nurse: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Somebody else is registered after every check and before the row is written."""
    write = registering._registered

    def second(*given: Any, **options: Any) -> Patient:
        PatientFactory(record_number="K-204", date_of_birth=date(1950, 1, 2))
        return write(*given, **options)

    monkeypatch.setattr(registering, "_registered", second)
    monkeypatch.setattr(Patient, "full_clean", lambda *_given, **_options: None)
    answer = register(nurse, **row(number="01632 960123"))
    page = answer.content.decode()
    assert answer.status_code == 200
    assert NUMBER_IS_GIVEN in page
    assert SAME_NUMBER_OF_RECORD in page
    assert Patient.objects.count() == 1


def test_correcting_to_a_number_just_given_is_said_beside_its_field(
    nurse: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    PatientFactory(record_number="K-204")
    patient = PatientFactory()
    monkeypatch.setattr(Patient, "full_clean", lambda *_args, **_options: None)
    with pytest.raises(ValidationError) as refused:
        actions.correct_patient(
            patient=patient, by=UserFactory(), values={"record_number": "K-204"}
        )
    assert refused.value.message_dict == {"record_number": [NUMBER_IS_GIVEN]}
    address = reverse("patients:correct", args=[patient.uuid])
    seen = nurse.get(address).context["form"]["seen"].value()
    page = nurse.post(address, {**PERSON, "seen": seen})
    assert page.context["form"].errors == {"record_number": [NUMBER_IS_GIVEN]}


@pytest.mark.parametrize(
    ("given", "family"), [("Katherine", "Maier"), ("Catherine", "Meyer"), ("Meier", "Kathryn")]
)
def test_names_that_sound_the_same_are_noticed(given: str, family: str) -> None:
    known = PatientFactory(given_name="Cathryn", family_name="Meyer")
    found = like_this_one(given_name=given, family_name=family, born=known.date_of_birth)
    assert found == [known]


def test_one_name_that_sounds_the_same_is_not_enough() -> None:
    assert not sound_alike(("Cathryn", "Meyer"), ("Katherine", "Hazelgrove"))
    assert not sound_alike(("", "Meyer"), ("", "Maier"))


def test_the_desk_registers_without_clinical_questions() -> None:
    page = signed_in(Role.DESK).get(reverse(REGISTER)).content.decode()
    assert "contacts-carer_name" in page
    assert "diabetes" not in page
    assert "carer_changes" not in page
