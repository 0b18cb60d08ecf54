"""Telephones, carer, family doctor and language: as typed, checked in words, kept in a history."""

from typing import Any
from uuid import uuid4

import pytest
from django.apps import apps
from django.core.exceptions import ValidationError
from django.db import DatabaseError, transaction
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.patients.actions import Number, save_contacts
from clinic.patients.contacts_form import NO_NUMBER, ContactsForm
from clinic.patients.models import Contacts, Patient, Telephone
from clinic.patients.models.contacts import WHICH_CARER, WHICH_DOCTOR
from clinic.patients.models.telephone import NUMBER_WORDS
from tests.clinic.patients.test_pages import record_of, signed_in
from tests.factories.accounts import UserFactory
from tests.factories.patients import ContactsFactory, PatientFactory, TelephoneFactory

pytestmark = pytest.mark.django_db


def row(key: object = None, **typed: str) -> dict[str, Any]:
    """What the page posts for one telephone."""
    key = str(key or uuid4())
    return {
        "telephone-row": [key],
        **{f"telephone-{key}-{name}": given for name, given in typed.items()},
    }


def rows(*several: dict[str, Any]) -> dict[str, Any]:
    keys = [key for one in several for key in one["telephone-row"]]
    joined = {name: given for one in several for name, given in one.items()}
    return {**joined, "telephone-row": keys}


def address_of(patient: Patient) -> str:
    return reverse("patients:contacts", args=[patient.uuid])


def seen(client: Client, patient: Patient) -> str:
    return str(client.get(address_of(patient)).context["form"]["seen"].value())


@pytest.mark.parametrize(
    "number",
    [
        "01632 960123",
        "(01632) 960-123",
        "+44 (0)1632 960123",
        "555-0100",
        "555.0100",
        "555 0100 ext. 12",
        "555 0100 x12",
        "07700900123",
        "112",
    ],
)
def test_a_number_is_kept_as_typed(number: str) -> None:
    one = TelephoneFactory.build(patient=PatientFactory(), number=number)
    one.full_clean()
    one.save()
    one.refresh_from_db()
    assert one.number == number


@pytest.mark.parametrize("number", ["call Ivy", "01632 960123 (Ivy)", "+", "12", "960 123 ext", ""])
def test_what_is_no_number_is_refused_by_form_and_database(number: str) -> None:
    patient = PatientFactory()
    with pytest.raises(ValidationError) as refused:
        TelephoneFactory.build(patient=patient, number=number).full_clean()
    assert set(refused.value.message_dict) == {"number"}
    with pytest.raises(DatabaseError), transaction.atomic():
        TelephoneFactory(patient=patient, number=number)


@pytest.mark.parametrize(
    "changes",
    [
        {"carer_phone": "01632 960123"},
        {"carer_may_be_told": False},
        {"carer_changes": True},
        {"doctor_phone": "01632 960123"},
        {"carer_name": "Ivy", "carer_phone": "ask Ivy"},
        {"doctor_name": "Dr Reed", "doctor_phone": "1"},
    ],
)
def test_the_database_holds_what_the_form_says(changes: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        ContactsFactory.build(patient=PatientFactory(), **changes).full_clean()
    with pytest.raises(DatabaseError), transaction.atomic():
        ContactsFactory(**changes)


@pytest.mark.parametrize(
    ("typed", "field", "words"),
    [
        ({"carer_phone": "01632 960123"}, "carer_name", WHICH_CARER),
        ({"carer_may_be_told": "no"}, "carer_name", WHICH_CARER),
        ({"doctor_phone": "01632 960123"}, "doctor_name", WHICH_DOCTOR),
        ({"carer_name": "Ivy", "carer_phone": "ask Ivy"}, "carer_phone", NUMBER_WORDS),
    ],
)
def test_contacts_are_checked_in_words(typed: dict[str, str], field: str, words: str) -> None:
    data = {f"contacts-{name}": given for name, given in typed.items()}
    form = ContactsForm(data, instance=Contacts(patient=PatientFactory()), clinical=True)
    assert words in form.errors[field]
    assert set(form.errors) == {field}


def test_nothing_chosen_is_not_recorded() -> None:
    form = ContactsForm({}, instance=Contacts(patient=PatientFactory()), clinical=True)
    assert form.is_valid()
    assert set(form.values().values()) == {"", None}
    assert not form.is_filled


def test_saving_keeps_a_trail_that_quotes_nothing() -> None:
    client, patient = signed_in(Role.NURSE), PatientFactory()
    data = {
        "contacts-language_spoken": "Somali",
        "contacts-interpreter_needed": "yes",
        "contacts-carer_name": "Ivy Bracket",
        "contacts-carer_changes": "yes",
        **row(number="01632 960 123", whose="patient", kind="mobile"),
    }
    answer = client.post(address_of(patient), data)
    assert answer["Location"] == record_of(patient)
    contacts = Contacts.objects.get()
    assert (contacts.interpreter_needed, contacts.carer_may_be_told) == (True, None)
    assert patient.sheet_language == "en"
    detail = AccessLog.objects.get(action="changed contacts").detail
    assert detail == "carer_changes, carer_name, interpreter_needed, language_spoken, telephones"
    page = client.get(record_of(patient)).content.decode()
    for words in ("Somali; interpreter needed", "01632 960 123", "Ivy Bracket", "Ask the patient"):
        assert words in page


def test_a_row_sent_twice_is_one_and_an_emptied_row_is_taken_off() -> None:
    client, patient = signed_in(Role.NURSE), PatientFactory()
    first, second = row(number="01632 960123"), row(number="01632 960124")
    both = rows(first, second)
    client.post(address_of(patient), both)
    client.post(address_of(patient), {**both, "contacts-seen": seen(client, patient)})
    assert patient.telephones.count() == 2
    gone = rows(first, row(second["telephone-row"][0], number=""))
    client.post(address_of(patient), {**gone, "contacts-seen": seen(client, patient)})
    assert [one.number for one in patient.telephones.all()] == ["01632 960123"]
    events = apps.get_model("patients", "TelephoneEvent")._default_manager
    assert events.filter(pgh_label="delete", number="01632 960124").exists()


def test_a_number_of_somebody_else_is_never_moved() -> None:
    client, patient, other = signed_in(Role.NURSE), PatientFactory(), TelephoneFactory()
    client.post(address_of(patient), row(other.uuid, number="01632 960199"))
    other.refresh_from_db()
    assert other.number == "01632 960123"
    assert patient.telephones.get().uuid != other.uuid


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({"number": "ask Ivy"}, NUMBER_WORDS),
        ({"number": "", "name": "Ivy"}, NO_NUMBER),
        ({"number": "01632 960123", "whose": "other"}, "Say whose number it is."),
    ],
)
def test_a_row_is_checked_beside_its_field_and_keeps_what_was_typed(
    typed: dict[str, str], words: str
) -> None:
    client, patient = signed_in(Role.NURSE), PatientFactory()
    page = client.post(
        address_of(patient), {**row(**typed), "contacts-carer_name": "Ivy Bracket"}
    ).content.decode()
    assert page.count(words.replace("'", "&#x27;")) == 2  # in the summary and at the field
    assert 'value="Ivy Bracket"' in page
    assert not Telephone.objects.exists()


def test_a_change_in_the_meantime_is_shown() -> None:
    client, patient = signed_in(Role.NURSE), PatientFactory()
    before = seen(client, patient)
    save_contacts(
        patient=patient,
        by=UserFactory(),
        values={"language_spoken": "Tamil"},
        numbers=[Number(uuid4(), {"number": "01632 960123"})],
    )
    page = client.post(
        address_of(patient), {"contacts-seen": before, "contacts-language_spoken": "Urdu"}
    )
    assert "Someone changed this record" in page.content.decode()
    assert Contacts.objects.get().language_spoken == "Tamil"
    assert patient.telephones.exists()


def test_the_desk_neither_sees_nor_overwrites_what_the_carer_does() -> None:
    desk = signed_in(Role.DESK)
    contacts = ContactsFactory(carer_name="Ivy", carer_changes=True)
    page = desk.get(address_of(contacts.patient)).content.decode()
    assert "contacts-carer_may_be_told" in page
    assert "carer_changes" not in page
    assert "Changes the pouch" not in desk.get(record_of(contacts.patient)).content.decode()
    data = {
        "contacts-carer_name": "Ivy Bracket",
        "contacts-carer_changes": "no",
        "contacts-seen": seen(desk, contacts.patient),
    }
    desk.post(address_of(contacts.patient), data)
    contacts.refresh_from_db()
    assert (contacts.carer_name, contacts.carer_changes) == ("Ivy Bracket", True)


@pytest.mark.parametrize(
    ("recorded", "words"),
    [
        ({}, ""),
        ({"language_spoken": "Somali"}, "Language spoken: Somali"),
        ({"interpreter_needed": False}, "No interpreter needed"),
        (
            {"interpreter_needed": True},
            "Interpreter needed; the language is not recorded",
        ),
        (
            {"language_spoken": "Somali", "interpreter_needed": True},
            "Language spoken: Somali; interpreter needed",
        ),
    ],
)
def test_the_language_in_words(recorded: dict[str, Any], words: str) -> None:
    assert Contacts(**recorded).language_words == words
