"""Words and sizes as a patient would say them."""

import doctest
import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from clinic.documents.patient_language import lay_terms
from clinic.documents.patient_language.lay_terms import (
    DIRECTIONS,
    SITES,
    SKIN_WORDS,
    where,
    with_inches,
)
from clinic.patients.models import Site
from clinic.visits.choices import SkinKind


def test_examples_in_the_docstrings() -> None:
    result = doctest.testmod(lay_terms)
    assert result.attempted >= 10
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


@given(st.decimals(min_value=2, max_value=150, places=1))
def test_inches_are_within_a_32nd(mm: float) -> None:
    """By the definition of the inch, 25.4 mm exactly."""
    told = with_inches(f"{mm} mm").replace(lay_terms.NBSP, " ")
    size = re.search(r"\(about (.+) inch(?:es)?\)", told)
    assert size is not None
    inches = sum((Fraction(part) for part in size[1].split()), Fraction(0))
    assert abs(inches * Fraction("25.4") - Fraction(str(mm))) <= Fraction("25.4") / 32


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("34 x 30 mm", "34 x 30 mm (about 1 5/16 by 1 3/16 inches)"),
        ("34 × 30 mm", "34 × 30 mm (about 1 5/16 by 1 3/16 inches)"),
        ("50mm wide", "50mm (about 1 15/16 inches) wide"),
        ("25.4 mm", "25.4 mm (about 1 inch)"),
        ("2 layers", "2 layers"),
        ("700 mL", "700 mL"),
        ("30 minutes", "30 minutes"),
        ("Use 2 rings of 50 mm.", "Use 2 rings of 50 mm (about 1 15/16 inches)."),
    ],
)
def test_inches_in_a_sentence(text: str, told: str) -> None:
    assert with_inches(text).replace(lay_terms.NBSP, " ") == told


def test_a_number_never_leaves_its_unit() -> None:
    assert f"34{lay_terms.NBSP}mm" in with_inches("34 mm")
    assert f"1{lay_terms.NBSP}5/16{lay_terms.NBSP}inches" in with_inches("34 mm")
