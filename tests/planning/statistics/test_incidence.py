"""The limits a clinic counts by are those its plans are made by."""

from __future__ import annotations

import pytest

from planning.inputs.findings import SkinKind
from planning.statistics.incidence import (
    damaged_kinds,
    per_hundred,
    retracted_at,
    source_of,
    wear_compared,
    wear_typing_error,
)
from planning.statistics.rates import Share
from planning.statistics.too_few import TooFew


def test_retraction_is_five_millimetres_below_the_skin() -> None:
    assert (retracted_at().value, retracted_at().unit) == (-5.0, "mm")
    assert source_of(retracted_at()) == "from memory, unverified"


def test_limits_of_wear() -> None:
    assert (wear_compared().value, wear_typing_error().value) == (3, 14)
    assert "no source" in source_of(wear_compared())


def test_veins_lumps_and_openings_are_not_damage() -> None:
    assert {k.value for k in SkinKind} - damaged_kinds() == {
        "dilated_veins",
        "hard_lump",
        "fistula",
    }


def test_out_of_a_hundred() -> None:
    """Newcombe, Stat Med 1998;17:857: 15 of 148 is 10.1 % (5.78 to 16.17)."""
    found = per_hundred(15, 148)
    assert isinstance(found, Share)
    assert found.value == pytest.approx(10.135, abs=5e-4)
    assert (found.low, found.high) == pytest.approx((5.78, 16.17), abs=5e-3)


def test_out_of_none() -> None:
    assert isinstance(per_hundred(0, 0), TooFew)
