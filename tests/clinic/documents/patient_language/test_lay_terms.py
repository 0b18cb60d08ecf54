"""Words and sizes as a patient would say them."""

import re
from collections.abc import Iterable
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from clinic.documents.patient_language import lay_terms
from clinic.documents.patient_language.lay_terms import (
    DIRECTIONS,
    NBSP,
    SITES,
    SKIN_WORDS,
    long_day,
)
from clinic.documents.patient_language.said import english
from clinic.patients.models import Site
from clinic.visits.choices import SkinKind
from planning.results.message import Length


def where(hours: Iterable[int]) -> str:
    return str(english(lay_terms.where(hours)))


@pytest.mark.parametrize(
    ("hours", "words"),
    [
        ([5, 6, 7], "towards your feet"),
        ([3], "on your left"),
        ([1, 2], "towards your head, on your left"),
        (range(1, 13), "all the way round"),
        ([9, 3], "on your left and on your right"),
        ([], ""),
    ],
)
def test_hours_are_the_patients_own_directions(hours: Iterable[int], words: str) -> None:
    assert where(hours) == words


def test_a_day_has_nothing_shortened() -> None:
    assert english(long_day(date(2026, 3, 2))) == "2 March 2026"
    assert english(long_day(date(2026, 3, 2), weekday=True)) == "Monday, 2 March 2026"


@pytest.mark.parametrize(
    ("length", "words"),
    [
        (Length(34, 30), "34 mm by 30 mm (about 1 5/16 by 1 3/16 inches)"),
        (Length(0.5), "0.5 mm"),
    ],
)
def test_inches_are_beside_mm(length: Length, words: str) -> None:
    assert english(length).replace(NBSP, " ") == words


def test_every_kind_and_every_site_has_words() -> None:
    assert set(SKIN_WORDS) == set(SkinKind)
    assert set(SITES) == set(Site)


@pytest.mark.parametrize(
    ("hour", "words"),
    [
        (12, "towards your head"),
        (1, "towards your head, on your left"),
        (3, "on your left"),
        (5, "towards your feet, on your left"),
        (6, "towards your feet"),
        (7, "towards your feet, on your right"),
        (9, "on your right"),
        (11, "towards your head, on your right"),
    ],
)
def test_directions_are_the_patients_own(hour: int, words: str) -> None:
    """3 o'clock as the nurse sees it is the patient's left."""
    assert where([hour]) == words


@given(st.sets(st.integers(1, 12), min_size=1))
def test_left_and_right_change_places_in_the_mirror(hours: set[int]) -> None:
    swapped = {"left": "right", "right": "left"}
    mirrored = re.sub("left|right", lambda found: swapped[found[0]], where(hours))
    there = where({12 - hour or 12 for hour in hours})
    assert sorted(mirrored.split(" and ")) == sorted(there.split(" and "))


@given(st.sets(st.integers(1, 12), min_size=1))
def test_every_set_of_hours_has_words(hours: set[int]) -> None:
    known = {*DIRECTIONS, "most of the way round", "all the way round"}
    assert set(where(hours).split(" and ")) <= known
