"""Agreed baselines: as known, worse, not looked at, lapsed (facts of 2026, section 5)."""

from __future__ import annotations

from typing import Any

import pytest

from planning import History, recommend
from planning.facts.baselines import unchanged
from planning.inputs.findings import (
    Baseline,
    BaselineKind,
    Bleeding,
    Condition,
    Findings,
    Person,
    Prolapse,
    SkinKind,
    Symptom,
    Vitals,
)
from planning.results.plan import Urgency
from planning.safety.baseline import DIFFERENCES, NAMES, as_known, compared, comparisons
from tests.planning.builders import seen, situation, well

EVERYTHING = frozenset(Symptom)
FLUID = (
    BaselineKind.OUTPUT_TARGET, BaselineKind.VARICES, BaselineKind.LIVER_DISEASE,
    BaselineKind.CONTACT_BLEEDING, BaselineKind.PINK_URINE_OR_MUCUS, BaselineKind.CONFUSION,
)  # fmt: skip


def agreed(kind: BaselineKind, review: float | None = 30.0, **how: Any) -> Baseline:
    return Baseline(kind, "liver team", review_in_days=review, **how)


def asked(*present: Symptom, **changes: Any) -> Findings:
    felt = frozenset(present)
    return well(**({"present": felt, "absent": EVERYTHING - felt} | changes))


def against(found: Findings, *baselines: Baseline) -> Any:
    facts = situation(found, History(baselines=baselines)).facts
    return compared(facts, baselines[-1].kind)


@pytest.mark.parametrize(("review", "counts"), [(0.0, True), (None, True), (-0.5, False)])
def test_it_lapses_the_day_after_its_review(review: float | None, counts: bool) -> None:
    facts = situation(well(), History(baselines=(agreed(BaselineKind.VARICES, review),))).facts
    assert (facts.history.baseline(BaselineKind.VARICES) is not None) is counts


def test_an_older_agreement_never_stands_in_for_one_that_lapsed() -> None:
    both = (agreed(BaselineKind.VARICES, None), agreed(BaselineKind.VARICES, -1.0))
    facts = situation(well(), History(baselines=both)).facts
    assert facts.history.baseline(BaselineKind.VARICES) is None
    assert not as_known(facts, BaselineKind.VARICES)


def test_nothing_counts_as_known_by_an_older_agreement_while_the_plan_calls_it_overdue() -> None:
    """Both looks, at the stoma and at its output, read the same agreement."""
    both = (agreed(BaselineKind.PROLAPSE, None), agreed(BaselineKind.PROLAPSE, -1.0))
    found = well(prolapse=(Prolapse(30.0, True, False),))
    facts = situation(found, History(baselines=both[:1])).facts
    assert unchanged(BaselineKind.PROLAPSE, facts)
    facts = situation(found, History(baselines=both)).facts
    assert not unchanged(BaselineKind.PROLAPSE, facts)
    assert any("overdue" in reason.text for reason in comparisons(facts))


def test_what_nobody_compares_is_never_as_known() -> None:
    facts = situation(well(), History(baselines=(agreed(BaselineKind.NARROW_LUMEN),))).facts
    if BaselineKind.NARROW_LUMEN not in DIFFERENCES:
        assert not as_known(facts, BaselineKind.NARROW_LUMEN)
    assert set(DIFFERENCES) >= set(FLUID)
    assert set(NAMES) == set(BaselineKind)


WORSE: list[tuple[BaselineKind, Findings, str]] = [
    (BaselineKind.VARICES, asked(bleeding=Bleeding.ON_WIPING), "it bleeds"),
    (BaselineKind.LIVER_DISEASE, asked(bleeding=Bleeding.ON_WIPING), "it bleeds"),
    (BaselineKind.LIVER_DISEASE, asked(skin=(seen(SkinKind.DILATED_VEINS),)), "dilated veins"),
    (BaselineKind.CONTACT_BLEEDING, asked(bleeding=Bleeding.OOZE_AT_JUNCTION), "more than drops"),
    (BaselineKind.CONFUSION, asked(Symptom.CONFUSION, Symptom.RESTLESS), "newly restless"),
    (BaselineKind.CONFUSION, asked(Symptom.CONFUSION, vitals=Vitals(38.0)), "fever"),
    (BaselineKind.CONFUSION, asked(Symptom.CONFUSION, Symptom.DIZZY_ON_STANDING), "dizzy"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "found", "words"), WORSE)
def test_what_is_worse_is_named(kind: BaselineKind, found: Findings, words: str) -> None:
    result = against(found, agreed(kind))
    assert not result.as_known
    assert words in result.words
    assert "worse: " in result.words


UNSEEN: list[tuple[BaselineKind, Findings]] = [
    (BaselineKind.OUTPUT_TARGET, asked(volume_ml_24h=None)),
    (BaselineKind.VARICES, asked(skin=None)),
    (BaselineKind.VARICES, asked(bleeding=None)),
    (BaselineKind.LIVER_DISEASE, asked(skin=None)),
    (BaselineKind.CONTACT_BLEEDING, asked(bleeding=None)),
    (BaselineKind.PINK_URINE_OR_MUCUS, asked(urine_signs=None)),
    (BaselineKind.CONFUSION, well(present=frozenset({Symptom.CONFUSION}))),
]


@pytest.mark.parametrize(("kind", "found"), UNSEEN)
def test_what_was_not_recorded_is_never_as_known(kind: BaselineKind, found: Findings) -> None:
    result = against(found, agreed(kind))
    assert not result.as_known
    assert "not recorded today: " in result.words


@pytest.mark.parametrize(("volume", "named"), [(1499.0, False), (1500.0, True)])
def test_an_agreed_high_output_asks_for_the_signs_of_drying_from_1500_ml(
    volume: float, named: bool
) -> None:
    """Arenas 2015: 1500 mL in 24 hours is high."""
    result = against(well(volume_ml_24h=volume), agreed(BaselineKind.OUTPUT_TARGET, value=1600.0))
    assert ("new confusion" in result.words) is named


def test_known_confusion_is_no_emergency_while_nothing_else_has_changed() -> None:
    known = History(baselines=(agreed(BaselineKind.CONFUSION),))
    usual = recommend(asked(Symptom.CONFUSION), known)
    assert usual.urgency is Urgency.ROUTINE
    assert any("confusion): as known" in notice.text for notice in usual.notices)
    assert recommend(asked(Symptom.CONFUSION)).urgency is Urgency.EMERGENCY
    worse = asked(Symptom.CONFUSION, Symptom.RESTLESS)
    assert recommend(worse, known).urgency is Urgency.EMERGENCY
    open_ = well(present=frozenset({Symptom.CONFUSION}))
    assert recommend(open_, known).urgency is Urgency.SAME_DAY


@pytest.mark.parametrize("age", [8, 40])
@pytest.mark.parametrize("kind", FLUID)
def test_a_plan_always_says_that_it_compared(kind: BaselineKind, age: int) -> None:
    """Kept, changed, emergency, under 16: never in silence."""
    for changes in ({}, {"deep_cut": True}, {"present": frozenset({Symptom.FAINTNESS})}):
        history = History(baselines=(agreed(kind, value=2500.0),))
        plan = recommend(well(age_years=age, **changes), history)
        assert any(f"({NAMES[kind]}" in notice.text for notice in plan.notices)
        late = History(baselines=(agreed(kind, -1.0),))
        said = recommend(well(age_years=age, **changes), late).notices
        assert any("overdue for review" in notice.text for notice in said)


def test_liver_disease_without_veins_is_no_alarm() -> None:
    liver = Person(sensitivities=frozenset(), has=frozenset({Condition.LIVER_DISEASE}))
    assert recommend(well(person=liver)).urgency is Urgency.ROUTINE
