"""Find a patient from whatever was typed: part of a name, a record number, a day of birth."""

import re
from dataclasses import dataclass
from datetime import date
from functools import reduce
from operator import add
from typing import Any

from django.contrib.postgres.search import TrigramWordSimilarity
from django.db import connection, transaction
from django.db.models import F, FloatField, Q, QuerySet, Value
from django.db.models.expressions import Combinable

from clinic.dates import readings
from clinic.patients.models import Patient
from clinic.patients.models.fold import Fold

#: How close a name must be, tried in turn until enough are found: the very word, its beginning or
#: a slip in it, two swapped letters in a short name.
CLOSE_ENOUGH = (1.0, 0.6, 0.3)
AT_MOST = 20
#: Among so many equally close ones the order no longer helps; typing more does.
CANDIDATES = 120
_YEAR = re.compile(r"(18|19|20)\d\d")
_WORD = re.compile(r"[^\s,;]+")


@dataclass(frozen=True)
class Typed:
    """What was typed, taken apart."""

    born: tuple[date, ...]
    words: tuple[str, ...]

    @property
    def is_empty(self) -> bool:
        return not self.born and not self.words


def read(text: str) -> Typed:
    """Take a day out of ``text`` wherever it is; the rest is names and record numbers.

    >>> read("okafor 5 Apr 1961")
    Typed(born=(datetime.date(1961, 4, 5),), words=('okafor',))
    >>> len(read("04/05/1961").born), read("Ada, Quill").words
    (2, ('Ada', 'Quill'))
    """
    words = _WORD.findall(text)[:8]
    for size in (3, 2, 1):
        for start in range(len(words) - size + 1):
            if born := readings(" ".join(words[start : start + size])):
                return Typed(tuple(born), tuple(words[:start] + words[start + size :]))
    return Typed((), tuple(words))


def find(text: str) -> list[Patient]:
    """The likeliest patients, best first, at most ``AT_MOST``; none where nothing was typed."""
    typed = read(text)
    if typed.is_empty:
        return []
    found: dict[int, Patient] = {}
    with transaction.atomic(), connection.cursor() as cursor:
        # The first fitting rows of the whole table are never the quickest to come by.
        cursor.execute("SET LOCAL enable_seqscan = off")
        for closeness in CLOSE_ENOUGH:
            # The index serves the operator, and the operator takes its threshold from here.
            cursor.execute(
                "SELECT set_config('pg_trgm.word_similarity_threshold', %s, true)", [str(closeness)]
            )
            for patient in best_of(typed):
                found.setdefault(patient.pk, patient)
            if len(found) >= AT_MOST:
                break
    return list(found.values())[:AT_MOST]


def best_of(typed: Typed) -> QuerySet[Patient]:
    """The closest of the first ``CANDIDATES`` that fit: a name half the town has costs no more
    than a rare one."""
    some = matching(typed).order_by()[:CANDIDATES].values("pk")
    return ranked(Patient.objects.filter(pk__in=some), typed)[:AT_MOST]


def matching(typed: Typed) -> QuerySet[Patient]:
    """Patients whom every word and the day fit."""
    found = Patient.objects.all()
    if typed.born:
        found = found.filter(date_of_birth__in=typed.born)
    for word in typed.words:
        found = found.filter(_fits(word))
    return found


def ranked(found: QuerySet[Patient], typed: Typed) -> QuerySet[Patient]:
    """The closest name first."""
    closeness: list[Combinable] = [
        TrigramWordSimilarity(folded(word), "search_name") for word in typed.words
    ]
    total = reduce(add, closeness, Value(0.0, FloatField()))
    return found.annotate(closeness=total).order_by(
        F("closeness").desc(), "family_name", "given_name", "date_of_birth"
    )


def _fits(word: str) -> Q:
    """A record number begins with ``word``, or a name resembles it."""
    number = Q(record_number__startswith=word.upper())
    if _YEAR.fullmatch(word):
        return number | Q(date_of_birth__year=int(word))
    if any(character.isdigit() for character in word):
        return number
    return number | Q(search_name__trigram_word_similar=folded(word))


def folded(text: str) -> Any:
    """``text`` without case or accents, worked out in the database as the index was."""
    return Fold(Value(text))
