"""What may be recorded: said in words by the forms, and held by the database itself."""

from datetime import date, timedelta
from typing import Any

import pytest
from django.core.exceptions import ValidationError
from django.db import DatabaseError, transaction
from django.utils import timezone

from clinic.patients.forms import PatientForm, SensitivityForm, StomaForm
from clinic.patients.models import Patient, Sensitivity, Stoma
from tests.factories.patients import PatientFactory, SensitivityFactory, StomaFactory

pytestmark = pytest.mark.django_db

PERSON = {
    "record_number": "k-204",
    "family_name": "Wisp",
    "given_name": "Nell",
    "date_of_birth": "5 Apr 1961",
    "sheet_language": "en",
}
STOMA = {
    "kind": "ileostomy",
    "construction": "end",
    "site": "right lower",
    "surgery_date": "14 Mar 2024",
    "permanence": "unknown",
}


def years_ago(years: int, days: int = 0) -> date:
    today = timezone.localdate()
    return date(today.year - years, today.month, min(today.day, 28)) + timedelta(days=days)


def stoma_form(**changes: str) -> StomaForm:
    return StomaForm({**STOMA, **changes}, instance=Stoma(patient=PatientFactory()))


def test_nothing_clinical_has_a_default() -> None:
    form = PatientForm(PERSON)
    assert form.is_valid(), form.errors
    values = form.values()
    assert values["record_number"] == "K-204"
    assert values["sex"] is None
    assert {values[name] for name in Patient.STANDING_CONDITIONS} == {None}
    assert {values[name] for name in ("hand_dexterity", "eyesight", "pouch_changed_by")} == {""}


@pytest.mark.parametrize(
    ("born", "words"),
    [
        (timezone.localdate() + timedelta(days=1), "This date is in the future."),
        (years_ago(131, -2), "This is more than 130 years ago."),
    ],
)
def test_an_impossible_birth_is_refused_beside_its_field(born: date, words: str) -> None:
    form = PatientForm({**PERSON, "date_of_birth": born.isoformat()})
    assert form.errors == {"date_of_birth": [words]}


@pytest.mark.parametrize("born", [timezone.localdate(), years_ago(120, 1)])
def test_a_possible_birth_is_taken(born: date) -> None:
    assert PatientForm({**PERSON, "date_of_birth": born.isoformat()}).is_valid()


def test_a_record_number_belongs_to_one_person_whatever_its_case() -> None:
    PatientFactory(record_number="K-204")
    form = PatientForm(PERSON)
    assert form.errors == {"record_number": ["Another patient already has this record number."]}


def test_a_birth_may_not_be_corrected_past_a_surgery() -> None:
    stoma = StomaFactory(surgery_date=date(2024, 3, 14))
    form = PatientForm({**PERSON, "date_of_birth": "15 Mar 2024"}, instance=stoma.patient)
    assert form.errors["date_of_birth"] == ["A stoma was made on 14 Mar 2024, before this date."]


@pytest.mark.parametrize(
    ("changes", "field", "words"),
    [
        ({"surgery_date": ""}, "surgery_date", "Give the date, or tick that it is not known."),
        (
            {"surgery_date_unknown": "on"},
            "surgery_date",
            "Clear the date, or untick that it is not known.",
        ),
        (
            {"surgery_date": "4 Apr 1961"},
            "surgery_date",
            "The patient was born on 5 Apr 1961, after this date.",
        ),
        ({"surgery_date": "1 Jan 2090"}, "surgery_date", "This date is in the future."),
        ({"kind": ""}, "kind", "Choose the kind of stoma."),
        ({"permanence": ""}, "permanence", "Choose one; not known is an answer."),
    ],
)
def test_a_stoma_is_checked_in_words(changes: dict[str, str], field: str, words: str) -> None:
    assert stoma_form(**changes).errors == {field: [words]}


@pytest.mark.parametrize(
    "changes",
    [{}, {"surgery_date": "5 Apr 1961"}, {"surgery_date": "", "surgery_date_unknown": "on"}],
)
def test_a_stoma_in_order_is_taken(changes: dict[str, str]) -> None:
    form = stoma_form(**changes)
    assert form.is_valid(), form.errors


@pytest.mark.parametrize(
    ("closed", "words"),
    [
        (
            date(2024, 3, 13),
            "Made on 14 Mar 2024 and closed on 13 Mar 2024: it cannot be closed before it is made.",
        ),
        (date(2090, 1, 1), "This date is in the future."),
    ],
)
def test_a_stoma_closes_after_it_was_made(closed: date, words: str) -> None:
    stoma = StomaFactory.build(
        patient=PatientFactory(), surgery_date=date(2024, 3, 14), closed_on=closed
    )
    with pytest.raises(ValidationError) as refused:
        stoma.full_clean()
    assert refused.value.message_dict == {"closed_on": [words]}


def test_the_name_of_a_stoma() -> None:
    assert StomaFactory.build(patient=None).short_name == "End ileostomy, right lower"


@pytest.mark.parametrize(
    ("changes", "field", "words"),
    [
        (
            {"since": "March"},
            "since",
            "Give a year (2021), a month (2021-03) or a day (2021-03-14).",
        ),
        ({"since": "2021-02-30"}, "since", "There is no such day."),
        ({"since": "2090"}, "since", "This is in the future."),
        ({"since": "1961-03"}, "since", "This is before the patient was born."),
        ({"material": "other"}, "other_material", "Say what the material was."),
        ({"other_material": "x"}, "other_material", "Leave this empty unless you chose Other."),
        ({"reaction": " "}, "reaction", "Say what happened."),
        ({"material": ""}, "material", "Choose the material."),
    ],
)
def test_a_sensitivity_is_checked_in_words(changes: dict[str, str], field: str, words: str) -> None:
    data = {"material": "paste", "reaction": "Itch", "since": "2021", **changes}
    form = SensitivityForm(data, instance=Sensitivity(patient=PatientFactory()))
    assert form.errors == {field: [words]}


@pytest.mark.parametrize("since", ["", "1961", "1961-04", "2021-03-14"])
def test_since_is_as_exact_as_it_is_known(since: str) -> None:
    data = {"material": "other", "other_material": "zinc", "reaction": "Itch", "since": since}
    form = SensitivityForm(data, instance=Sensitivity(patient=PatientFactory()))
    assert form.is_valid(), form.errors


@pytest.mark.parametrize(
    "changes",
    [
        {"family_name": "  "},
        {"record_number": "a b"},
        {"record_number": ""},
        {"date_of_birth": date(1879, 12, 31)},
        {"sex": "f"},
        {"sheet_language": "fr"},
        {"hand_dexterity": "so-so"},
        {"eyesight": "so-so"},
        {"pouch_changed_by": "dog"},
        {"date_of_birth": timezone.localdate() + timedelta(days=3)},
    ],
)
def test_the_database_refuses_such_a_patient(changes: dict[str, Any]) -> None:
    patient = PatientFactory()
    with pytest.raises(DatabaseError), transaction.atomic():
        Patient.objects.filter(pk=patient.pk).update(**changes)


@pytest.mark.parametrize(
    "changes",
    [
        {"kind": "stoma"},
        {"construction": "side"},
        {"site": "left"},
        {"permanence": ""},
        {"surgery_date": None},
        {"surgery_date_unknown": True},
        {"closed_on": date(2024, 3, 13)},
        {"surgery_date": date(1961, 4, 4)},
    ],
)
def test_the_database_refuses_such_a_stoma(changes: dict[str, Any]) -> None:
    stoma = StomaFactory(surgery_date=date(2024, 3, 14))
    with pytest.raises(DatabaseError), transaction.atomic():
        Stoma.objects.filter(pk=stoma.pk).update(**changes)


@pytest.mark.parametrize(
    "changes",
    [
        {"material": "glue"},
        {"material": "other"},
        {"other_material": "zinc"},
        {"reaction": " "},
        {"since": "2021-13"},
        {"since": "lately"},
    ],
)
def test_the_database_refuses_such_a_sensitivity(changes: dict[str, Any]) -> None:
    one = SensitivityFactory()
    with pytest.raises(DatabaseError), transaction.atomic():
        Sensitivity.objects.filter(pk=one.pk).update(**changes)


def test_the_database_refuses_a_birth_after_a_surgery() -> None:
    stoma = StomaFactory(surgery_date=date(2024, 3, 14))
    with pytest.raises(DatabaseError, match="date of surgery"), transaction.atomic():
        Patient.objects.filter(pk=stoma.patient_id).update(date_of_birth=date(2024, 3, 15))
    Patient.objects.filter(pk=stoma.patient_id).update(date_of_birth=date(2024, 3, 14))


@pytest.mark.parametrize("factory", [StomaFactory, SensitivityFactory])
def test_nothing_moves_to_another_person(factory: Any) -> None:
    row, other = factory(), PatientFactory()
    with pytest.raises(DatabaseError, match="Cannot update"), transaction.atomic():
        type(row).objects.filter(pk=row.pk).update(patient=other)
