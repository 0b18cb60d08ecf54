"""Finding a patient from what a hurried hand types, and by the index."""

from datetime import date

import pytest
from django.db import connection

from clinic.patients.duplicates import like_this_one
from clinic.patients.models import Patient
from clinic.patients.search import find, matching, read
from tests.factories.patients import PatientFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def zofia() -> Patient:
    for family, given in (("Brackwater", "Rufus"), ("Owlsworth", "Tamsin"), ("Hale", "Odile")):
        PatientFactory(family_name=family, given_name=given, date_of_birth=date(1950, 1, 2))
    return PatientFactory(
        record_number="KX-7781",
        family_name="Żółtowska",
        given_name="Zofia",
        date_of_birth=date(1961, 4, 5),
    )


@pytest.mark.parametrize(
    "typed",
    [
        "Żółtowska",
        "zoltowska",
        "ZOLTOWSKA zofia",
        "zofia, zolt",
        "zoltowksa",
        "zlotowska",
        "soltowska",
        "kx-77",
        "KX-7781",
        "5 Apr 1961",
        "1961-04-05",
        "04/05/1961",
        "5/4/1961",
        "April 5, 1961",
        "zofia 5 apr 1961",
        "1961",
        "zof 1961",
    ],
)
def test_found_first(zofia: Patient, typed: str) -> None:
    assert find(typed)[:1] == [zofia]


@pytest.mark.parametrize(
    "typed", ["", "  ", ",", "qqqqxx", "zofia 6 Apr 1961", "KX-9", "zofia brackwater", "%", "_"]
)
def test_not_found(zofia: Patient, typed: str) -> None:
    assert find(typed) == []


def test_a_day_of_two_readings_finds_both() -> None:
    april = PatientFactory(date_of_birth=date(1961, 4, 5))
    may = PatientFactory(date_of_birth=date(1961, 5, 4))
    PatientFactory(date_of_birth=date(1961, 4, 6))
    assert {patient.pk for patient in find("04/05/1961")} == {april.pk, may.pk}


def test_the_closest_name_comes_first() -> None:
    near = PatientFactory(family_name="Marlowe", given_name="Ann")
    PatientFactory(family_name="Marlin", given_name="Ann")
    assert find("marlowe")[0] == near


@pytest.mark.parametrize("typed", ["marlowe", "zof marl", "T00012"])
def test_the_index_serves_the_search(typed: str) -> None:
    Patient.objects.bulk_create(
        PatientFactory.build(family_name=f"Name{n}", record_number=f"T{n:05d}") for n in range(500)
    )
    with connection.cursor() as cursor:
        cursor.execute("ANALYZE patients_patient")
        # Few rows fit a page, so the query planner must not read them all.
        cursor.execute("SET LOCAL enable_seqscan = off")
    plan = matching(read(typed)).explain()
    assert "Seq Scan" not in plan
    assert "patient_name_trigrams" in plan or "record_number" in plan


def test_names_use_the_trigram_index() -> None:
    with connection.cursor() as cursor:
        cursor.execute("SET LOCAL enable_seqscan = off")
    assert "patient_name_trigrams" in matching(read("marlowe")).explain()


@pytest.mark.parametrize(
    ("given", "family", "born"),
    [
        ("Zofia", "Zoltowska", date(1961, 4, 5)),
        ("Sofia", "Żółtowska", date(1961, 4, 5)),
        ("Żółtowska", "Zofia", date(1961, 4, 5)),
        ("Zofia", "Zoltowska", date(1961, 5, 4)),
    ],
)
def test_the_same_person_is_noticed(zofia: Patient, given: str, family: str, born: date) -> None:
    assert like_this_one(given_name=given, family_name=family, born=born) == [zofia]


@pytest.mark.parametrize(
    ("given", "family", "born"),
    [
        ("Zofia", "Zoltowska", date(1961, 4, 6)),
        ("Rufus", "Hazelgrove", date(1961, 4, 5)),
    ],
)
def test_another_person_is_not(zofia: Patient, given: str, family: str, born: date) -> None:
    assert like_this_one(given_name=given, family_name=family, born=born) == []
