"""Agreed baselines: as known, worse, not looked at, lapsed (facts of 2026, section 5)."""

from __future__ import annotations

from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Baseline,
    BaselineKind,
    Bleeding,
    Condition,
    Findings,
    Person,
    Prolapse,
    Separation,
    SkinKind,
    Symptom,
    UrineSign,
    Vitals,
)
from planning.results.plan import Urgency
from planning.safety.baselines import NAMES, as_known, compared, comparisons
from planning.safety.baselines.compare import DIFFERENCES
from tests.planning.builders import LOW, seen, situation, well

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
    assert as_known(facts, BaselineKind.PROLAPSE)
    facts = situation(found, History(baselines=both)).facts
    assert not as_known(facts, BaselineKind.PROLAPSE)
    assert any("overdue" in reason.text for reason in comparisons(facts))


def test_everything_that_can_be_agreed_is_compared() -> None:
    assert set(DIFFERENCES) == set(NAMES) == set(BaselineKind)


WORSE: list[tuple[BaselineKind, Findings, str]] = [
    (BaselineKind.VARICES, asked(bleeding=Bleeding.ON_WIPING), "it bleeds"),
    (BaselineKind.LIVER_DISEASE, asked(bleeding=Bleeding.ON_WIPING), "it bleeds"),
    (BaselineKind.LIVER_DISEASE, asked(skin=(seen(SkinKind.DILATED_VEINS),)), "dilated veins"),
    (BaselineKind.CONTACT_BLEEDING, asked(bleeding=Bleeding.OOZE_AT_JUNCTION), "more than drops"),
    (BaselineKind.CONFUSION, asked(Symptom.CONFUSION, Symptom.RESTLESS), "newly restless"),
    (BaselineKind.CONFUSION, asked(Symptom.CONFUSION, vitals=Vitals(38.0)), "fever"),
    (BaselineKind.CONFUSION, asked(Symptom.CONFUSION, Symptom.DIZZY_ON_STANDING), "dizzy"),
]  # fmt: skip


#: Figures of facts section 5, either side: 5 mm lower than the signed height.
OF_THE_STOMA: list[tuple[BaselineKind, dict[str, Any], Findings, str]] = [
    (BaselineKind.HEIGHT, {"value": 3.0}, asked(protrusion_mm=-1.9, pain_0_10=0), "as known"),
    (BaselineKind.HEIGHT, {"value": 3.0}, asked(protrusion_mm=-2.0), "worse: it is lower, -2 mm"),
    (BaselineKind.HEIGHT, {}, asked(), "not recorded today: height against an agreed figure"),
    (BaselineKind.HEIGHT, {"value": 25.0}, asked(pain_0_10=1), "worse: it hurts"),
    (BaselineKind.HEIGHT, {"value": 25.0}, asked(Symptom.RIBBON_STOOL), "ribbon-like"),
    (BaselineKind.HEIGHT, {"value": 25.0}, asked(leak=LOW), "worse: it leaks"),
    (BaselineKind.HEALED_PYODERMA, {}, asked(), "as known"),
    (BaselineKind.HEALED_PYODERMA, {}, asked(skin=None), "not recorded today: the skin"),
    (BaselineKind.HEALED_PYODERMA, {}, asked(skin=(seen(SkinKind.PRESSURE_MARK),)),
     "worse: there is a pressure mark"),
    (BaselineKind.PROLAPSE, {}, asked(prolapse=()), "not there today"),
    (BaselineKind.PROLAPSE, {}, asked(prolapse=None), "not recorded today: whether there is"),
    (BaselineKind.PROLAPSE, {}, asked(prolapse=(Prolapse(30.0, True, None),)),
     "not recorded today: whether it hurts"),
    (BaselineKind.BULGE, {}, asked(bulges=()), "not there today"),
    (BaselineKind.SEPARATION, {"value": 8.0}, asked(junction=()), "not there today"),
    (BaselineKind.NARROW_LUMEN, {}, asked(), "not recorded today: how wide it is"),
    (BaselineKind.THICK_SKIN, {}, asked(), "not there today"),
    (BaselineKind.DARK_STOMA, {}, asked(colour=None), "not recorded today: its colour"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "how", "found", "words"), OF_THE_STOMA)
def test_the_stoma_its_edge_and_its_skin_are_compared(
    kind: BaselineKind, how: dict[str, Any], found: Findings, words: str
) -> None:
    assert words in against(found, agreed(kind, **how)).words


def test_a_known_gap_with_fever_is_an_emergency_still() -> None:
    """What is agreed never hides a sign of infection in the depth (facts of 2026, 1.3)."""
    gap = {"junction": (Separation(ClockHours.of(3), depth_mm=25.0, base_visible=False),)}
    known = History(baselines=(agreed(BaselineKind.SEPARATION, value=25.0),))
    ill = recommend(asked(vitals=Vitals(38.5), **gap), known)
    assert "separation_deep" in {f.key for f in ill.red_flags if f.urgency is Urgency.EMERGENCY}


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
    (BaselineKind.PINK_URINE_OR_MUCUS,
     asked(urine_signs=frozenset(), urine_signs_not_asked=frozenset({UrineSign.CLOTS}))),
    (BaselineKind.CONFUSION, well(present=frozenset({Symptom.CONFUSION}))),
]  # fmt: skip


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
@pytest.mark.parametrize("kind", list(BaselineKind))
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
