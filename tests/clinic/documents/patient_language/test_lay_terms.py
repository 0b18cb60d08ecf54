"""Words and sizes as a patient would say them."""

import doctest
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from clinic.documents.patient_language import lay_terms
from clinic.documents.patient_language.lay_terms import (
    DIRECTIONS,
    SITES,
    SKIN_WORDS,
    where,
)
from clinic.patients.models import Site
from clinic.visits.choices import SkinKind


def test_examples_in_the_docstrings() -> None:
    result = doctest.testmod(lay_terms)
    assert result.attempted >= 6
    assert result.failed == 0


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
