"""Each sign that keeps a well-fitting system from being left alone, by itself."""

from __future__ import annotations

from typing import Any

import pytest

from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Bleeding,
    Colour,
    Condition,
    Oedema,
    Person,
    Separation,
    StomaKind,
    Symptom,
    Turgor,
    UrineSign,
)
from planning.safety.unsettled import unsettled
from tests.planning.builders import raw, situation, well

NO_RISK = Person(has_not=frozenset({Condition.ANTICOAGULANT, Condition.LIVER_DISEASE}))
HALF_ASKED = Person(has_not=frozenset({Condition.ANTICOAGULANT}))
OTHER_HALF = Person(has_not=frozenset({Condition.LIVER_DISEASE}))


@pytest.mark.parametrize(
    ("changes", "is_unsettled"),
    [
        ({}, False),
        ({"present": frozenset({Symptom.NAUSEA})}, True),
        ({"pain_0_10": 4}, True),
        ({"pain_0_10": 3}, False),
        ({"pain_0_10": 4, "skin": (raw(),)}, False),
        ({"kind": StomaKind.UROSTOMY, "urine_signs": frozenset({UrineSign.BLOOD})}, True),
        ({"kind": StomaKind.UROSTOMY, "urine_signs": frozenset()}, False),
        ({"colour": Colour.PALE}, True),
        ({"colour": None}, False),
        ({"turgor": Turgor.DRY}, True),
        ({"turgor": None}, False),
        ({"oedema": Oedema.MARKED, "days_since_surgery": 10}, True),
        ({"oedema": Oedema.MILD, "days_since_surgery": 10}, False),
        ({"oedema": Oedema.MILD}, True),
        ({"oedema": Oedema.MILD, "days_since_surgery": None}, True),
        ({"bleeding": None}, False),
        ({"bleeding": Bleeding.FROM_LUMEN}, True),
        ({"bleeding": Bleeding.ON_WIPING, "person": NO_RISK}, False),
        ({"bleeding": Bleeding.ON_WIPING, "person": HALF_ASKED}, True),
        ({"bleeding": Bleeding.ON_WIPING, "person": OTHER_HALF}, True),
        ({"junction": (Separation(ClockHours.of(6), 2.0, True, False),)}, True),
        ({"deep_cut": True}, True),
        ({"deep_cut": False}, False),
    ],
)
def test_each_sign_alone_unsettles(changes: dict[str, Any], is_unsettled: bool) -> None:
    """Pain counts from 4 unless sore skin explains it; bleeding on wiping is usual only where
    both blood thinners and liver disease were asked for and excluded."""
    assert unsettled(situation(well(**changes)).facts) is is_unsettled
