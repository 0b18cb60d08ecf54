"""Each sign that keeps a well-fitting system from being left alone, by itself."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Baseline,
    BaselineKind,
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
from planning.results.plan import FitAnswer
from planning.safety.unsettled import unsettled
from tests.planning.builders import raw, situation, well
from tests.planning.safety.dangers import KNOWN

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


def test_no_good_fit_is_said_while_a_question_of_bleeding_is_open() -> None:
    """A trace on wiping: reassured only where nothing is known that makes it bleed more easily."""
    asked = well(bleeding=Bleeding.ON_WIPING, person=KNOWN)
    unknown = replace(asked, person=replace(KNOWN, medicines=None, has_not=frozenset()))
    assert recommend(asked).headline.startswith("A good fit")
    assert "good fit" not in recommend(unknown).headline


def test_a_gap_at_the_edge_is_no_sound_skin_unless_it_is_known() -> None:
    gap = (Separation(ClockHours.of(6), 4.0, True, False, False, False),)
    agreed = Baseline(BaselineKind.SEPARATION, "surgeon", value=4.0)
    known = recommend(well(junction=gap), History(baselines=(agreed,)))
    new = recommend(well(junction=gap))
    assert new.fit is not None
    assert known.fit is not None
    assert new.fit.answer is FitAnswer.WATCH
    assert known.fit.answer is FitAnswer.FITS


@pytest.mark.parametrize(
    ("felt", "known", "is_unsettled"),
    [
        ({Symptom.CONFUSION}, True, False),
        ({Symptom.CONFUSION}, False, True),
        ({Symptom.CONFUSION, Symptom.NAUSEA}, True, True),
        ({Symptom.NAUSEA}, True, True),
    ],
)
def test_confusion_that_is_known_unsettles_nothing(
    felt: set[Symptom], known: bool, is_unsettled: bool
) -> None:
    found = well(present=frozenset(felt), absent=frozenset(Symptom) - felt)
    agreed = Baseline(BaselineKind.CONFUSION, "physician", review_in_days=30.0)
    history = History(baselines=(agreed,) if known else ())
    assert unsettled(situation(found, history).facts) is is_unsettled
