"""Who on record may be the person about to be registered, and why it seems so."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.contrib.postgres.search import TrigramSimilarity
from django.db import connection
from django.db.models import QuerySet

from clinic.patients.models import Patient, Telephone, Whose
from clinic.patients.models.telephone import SHARED, digits_of, same_line
from clinic.patients.search import folded
from clinic.patients.sound import sound_alike

SAME_NAME = 0.5
AT_MOST = 5
#: Any number that no other lock of this database has.
REGISTERING = 7_105_291
#: People born on one day, or with one telephone, that are looked at.
CANDIDATES = 200

SAME_NUMBER_OF_RECORD = "the same record number"
NAME_AND_BIRTH = "a similar name and date of birth"
SAME_PHONE = "the same telephone number"


@dataclass(frozen=True)
class Alike:
    """Somebody on record, and what they share with the person typed."""

    patient: Patient
    shared: tuple[str, ...]


def hold_registering() -> None:
    """One registers at a time, until the transaction ends: two who register the same person at
    one moment are seen by the second."""
    with connection.cursor() as cursor:
        cursor.execute("SELECT pg_advisory_xact_lock(%s)", [REGISTERING])


def alike(
    *,
    given_name: str,
    family_name: str,
    born: date | None,
    numbers: Iterable[str] = (),
    record_number: str = "",
) -> list[Alike]:
    """At most ``AT_MOST`` people, the likeliest first; a care home's number says nothing."""
    found: dict[Patient, list[str]] = {}
    if record_number:
        for one in Patient.objects.filter(record_number=record_number):
            found.setdefault(one, []).append(SAME_NUMBER_OF_RECORD)
    if born:
        for one in like_this_one(given_name=given_name, family_name=family_name, born=born):
            found.setdefault(one, []).append(NAME_AND_BIRTH)
    for one in with_these_numbers(numbers):
        found.setdefault(one, []).append(SAME_PHONE)
    ranked = sorted(found.items(), key=lambda item: -len(item[1]))
    return [Alike(patient, tuple(shared)) for patient, shared in ranked[:AT_MOST]]


def like_this_one(*, given_name: str, family_name: str, born: date) -> list[Patient]:
    """Their names are spelled or sound alike, and their days of birth are the same, or the same
    with day and month swapped."""
    near = _born(born, given_name, family_name)
    return [
        patient
        for patient in near[:CANDIDATES]
        if patient.closeness >= SAME_NAME  # type: ignore[attr-defined]
        or sound_alike((given_name, family_name), (patient.given_name, patient.family_name))
    ][:AT_MOST]


def _born(born: date, given_name: str, family_name: str) -> QuerySet[Patient]:
    name = folded(f"{given_name} {family_name}")
    same_day = Patient.objects.filter(date_of_birth__in=_swappable(born))
    return same_day.annotate(closeness=TrigramSimilarity("search_name", name)).order_by(
        "-closeness", "pk"
    )


def _swappable(born: date) -> set[date]:
    if born.day > 12:
        return {born}
    return {born, born.replace(month=born.day, day=born.month)}


def with_these_numbers(numbers: Iterable[str]) -> list[Patient]:
    """People with one of these telephone numbers, however it was written."""
    typed = [number for number in numbers if len(digits_of(number)) >= SHARED]
    tails = {digits_of(number)[-SHARED:] for number in typed}
    if not tails:
        return []
    rows = Telephone.objects.filter(tail__in=tails).exclude(whose=Whose.CARE_HOME)
    same = [
        row.patient
        for row in rows.select_related("patient")[:CANDIDATES]
        if any(same_line(row.number, number) for number in typed)
    ]
    return list(dict.fromkeys(same))
