"""Inches beside the lengths that a clinician typed."""

import doctest
import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from clinic.documents.patient_language import typed_words
from clinic.documents.patient_language.lay_terms import NBSP
from clinic.documents.patient_language.typed_words import with_inches


def test_examples_in_the_docstrings() -> None:
    result = doctest.testmod(typed_words)
    assert result.attempted >= 4
    assert result.failed == 0


@given(st.decimals(min_value=2, max_value=150, places=1))
def test_inches_are_within_a_32nd(mm: float) -> None:
    """By the definition of the inch, 25.4 mm exactly."""
    told = with_inches(f"{mm} mm").replace(NBSP, " ")
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
    assert with_inches(text).replace(NBSP, " ") == told


def test_a_number_never_leaves_its_unit() -> None:
    assert f"34{NBSP}mm" in with_inches("34 mm")
    assert f"1{NBSP}5/16{NBSP}inches" in with_inches("34 mm")
