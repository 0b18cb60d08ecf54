"""Somebody found by what only they, or a paper in their hand, says: the front desk prints for such
a person, and for people of the day (``documents.desk``)."""

import unicodedata
from collections.abc import Iterable
from datetime import timedelta
from typing import Final

from django.http import HttpRequest

from clinic.patients.kept_a_while import KeptAWhile
from clinic.patients.models import Patient
from clinic.patients.search import read

#: Design value: for as long as one person is at the desk, with a wait for the nurse.
RECALLED: Final = KeptAWhile("recalled", timedelta(minutes=30))


def keep_recalled(request: HttpRequest, words: str, found: Iterable[Patient]) -> None:
    """Of ``found``, those whom ``words`` name beyond doubt."""
    for patient in found:
        if names_beyond_doubt(words, patient):
            RECALLED.keep(request, patient)


def names_beyond_doubt(words: str, patient: Patient) -> bool:
    """The whole record number; or every part of the name, as on record, with the day of birth."""
    typed = read(words)
    if patient.record_number in (word.upper() for word in typed.words):
        return True
    whole = sorted(_plain(word) for word in typed.words) == sorted(
        _plain(word) for word in read(patient.full_name).words
    )
    return whole and patient.date_of_birth in typed.born


def _plain(word: str) -> str:
    """Without case and accents, as names are searched."""
    apart = unicodedata.normalize("NFKD", word.casefold())
    return "".join(one for one in apart if not unicodedata.combining(one))
