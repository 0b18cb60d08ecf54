"""Under 16: each sign alone, either side of each figure of a child's own."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning import History
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    ChildSign,
    Condition,
    Findings,
    Separation,
    SkinKind,
    StomaKind,
    Symptom,
    Turgor,
    Weighing,
)
from planning.results.plan import Urgency
from planning.safety.child_signs import asked_and_absent, child_clear, child_grave, not_thriving
from planning.safety.red_flags import NOT_FOR_ADULTS
from tests.planning.builders import seen, situation
from tests.planning.children.test_child_output import STEADY, D, E, S, T, child

BY_KEY = {rule.key: rule for rule in NOT_FOR_ADULTS}
URO: dict[str, Any] = {"kind": StomaKind.UROSTOMY}
THIN = History(weighings=(Weighing(5, 11.0),))
WASTED = History(weighings=(Weighing(300, 12.0),))


def feels(*symptoms: Symptom) -> dict[str, Any]:
    return {"present": frozenset(symptoms)}


def not_asked(found: Findings, *symptoms: Symptom) -> Findings:
    return replace(found, output=replace(found.output, absent=found.output.absent - {*symptoms}))


GRAVE: list[tuple[Findings, History, tuple[str, ...]]] = [
    (child(), STEADY, ()),
    (child(ChildSign.NO_WET_NAPPY_6_HOURS), STEADY, ("no wet nappy for hours",)),
    (child(ChildSign.SLEEPY), STEADY, ("very sleepy",)),
    (child(ChildSign.SLEEPY, **feels(Symptom.DROWSY)), STEADY, ("very sleepy",)),
    (child(**feels(Symptom.DROWSY)), STEADY, ("drowsy",)),
    (child(**feels(Symptom.CONFUSION)), STEADY, ("confused",)),
    (child(**feels(Symptom.PALPITATIONS)), STEADY, ("palpitations",)),
    (child(), WASTED, ("much weight lost",)),
    (child(kg=10.8), WASTED, ("much weight lost",)),
    (child(kg=10.81), WASTED, ()),
    (child(kg=None), WASTED, ()),
    (child(hours_without_urine=5.9), STEADY, ()),
    (child(hours_without_urine=6.0), STEADY, ("no urine for hours",)),
    (child(hours_without_urine=9.0, **URO), STEADY, ()),
]  # fmt: skip
CLEAR: list[tuple[Findings, History, tuple[str, ...]]] = [
    (child(), STEADY, ()),
    *((child(sign), STEADY, (words,)) for sign, words in (
        (ChildSign.FEWER_WET_NAPPIES, "fewer wet nappies"),
        (ChildSign.SUNKEN_EYES_OR_FONTANELLE, "sunken eyes or fontanelle"),
        (ChildSign.NO_TEARS, "no tears"), (ChildSign.DRY_MOUTH, "dry mouth"),
        (ChildSign.COLD_HANDS, "cold hands"), (ChildSign.SLOW_REFILL, "slow refill"))),
    (child(**feels(Symptom.DRY_MOUTH)), STEADY, ("dry mouth",)),
    (child(ChildSign.DRY_MOUTH, **feels(Symptom.DRY_MOUTH)), STEADY, ("dry mouth",)),
    (child(**feels(Symptom.LITTLE_URINE)), STEADY, ("little urine",)),
    (child(**feels(Symptom.LIMB_CRAMPS)), STEADY, ("cramps in the limbs",)),
    (child(kg=10.46), THIN, ()),
    (child(kg=10.44), THIN, ("weight lost",)),
    (child(kg=9.91), THIN, ("weight lost",)),
    (child(kg=9.89), THIN, ()),
]  # fmt: skip


@pytest.mark.parametrize(("found", "history", "words"), GRAVE)
def test_grave_signs(found: Findings, history: History, words: tuple[str, ...]) -> None:
    assert child_grave(situation(found, history).facts) == words


@pytest.mark.parametrize(("found", "history", "words"), CLEAR)
def test_clear_signs(found: Findings, history: History, words: tuple[str, ...]) -> None:
    assert child_clear(situation(found, history).facts) == words


@pytest.mark.parametrize(
    ("found", "words"),
    [
        (child(), ()),
        (child(ChildSign.NOT_GAINING), ("no or hardly any gain of weight",)),
        (child(ChildSign.SALT_CRAVING), ("craves salt",)),
        (child(**feels(Symptom.TIRED)), ("tires",)),
    ],
)
def test_signs_of_too_little_sodium(found: Findings, words: tuple[str, ...]) -> None:
    assert not_thriving(situation(found).facts) == words


@pytest.mark.parametrize(
    ("found", "history", "well"),
    [
        (child(), STEADY, True),
        (child(kg=None), STEADY, False),
        (child(), History(), False),
        (child(asked=False), STEADY, False),
        (child(ChildSign.COLD_HANDS), STEADY, False),
        (child(ChildSign.SLEEPY), STEADY, False),
        (child(kg=9.5), STEADY, False),
        (child(kg=9.51), STEADY, True),
        (child(**feels(Symptom.CANNOT_KEEP_FLUIDS)), STEADY, False),
        (not_asked(child(), Symptom.CANNOT_KEEP_FLUIDS), STEADY, False),
        (child(**feels(Symptom.LIMB_CRAMPS)), STEADY, False),
        (child(**feels(Symptom.CONFUSION)), STEADY, False),
        (child(**feels(Symptom.NAUSEA)), STEADY, True),
    ],
)
def test_every_sign_asked_and_absent(found: Findings, history: History, well: bool) -> None:
    assert asked_and_absent(situation(found, history).facts) is well


def judged(key: str, found: Findings, history: History = STEADY) -> Any:
    return BY_KEY[key].judge(situation(found, history).facts)


ULCER, UNDERMINED = seen(SkinKind.ULCER), seen(SkinKind.UNDERMINED_ULCER)
GROWN_OUT: dict[str, Any] = {"days_since_surgery": 31}
LEVELS: list[tuple[str, Findings, Urgency | None]] = [
    *(("blocked_or_vomiting", found, urgency) for found, urgency in (
        (child(), None), (child(ChildSign.GREEN_VOMIT), E),
        (child(**feels(Symptom.VOMITING)), S), (child(**feels(Symptom.SEVERE_CRAMPS)), S),
        (child(**feels(Symptom.SWOLLEN_ABDOMEN)), S), (child(**feels(Symptom.MILD_CRAMPS)), None),
        (child(**feels(Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN)), E),
        (child(**feels(Symptom.VOMITING, Symptom.SEVERE_CRAMPS)), E),
        (child(**feels(Symptom.SEVERE_CRAMPS, Symptom.SWOLLEN_ABDOMEN)), E),
        (child(**feels(Symptom.VOMITING), hours_without_output=0.5), E),
        (child(**feels(Symptom.SEVERE_CRAMPS), hours_without_output=0.5), E),
        (child(**feels(Symptom.SWOLLEN_ABDOMEN), hours_without_output=0.5), S),
        (child(hours_without_output=0.5), None))),
    *(("output_to_judge", child(kg=kg, volume_ml_24h=volume, **more), urgency)
      for kg, volume, more, urgency in (
          (10.0, 199.0, {}, None), (10.0, 200.0, {}, T), (10.0, 300.0, {}, S),
          (10.0, 400.0, {}, E), (10.0, 250.0, {"usual_ml_24h": 100.0}, T),
          (10.0, 150.0, {"usual_ml_24h": 100.0}, T), (10.0, 149.0, {"usual_ml_24h": 100.0}, None),
          (10.0, 400.0, {"usual_ml_24h": 100.0}, E), (None, 100.0, {}, S), (None, 2000.0, {}, E),
          (None, None, {}, None), (10.0, 500.0, URO, S))),
    ("output_to_judge", child(kg=None, volume_ml_24h=1500.0), S),
    ("watery", child(watery_for_hours=1.0), S), ("watery", child(watery_for_hours=0.0), None),
    ("watery", child(watery_for_hours=1.0, **URO), None), ("watery", child(), None),
    ("dusky", child(), None),
    ("dehydration", child(), None), ("dehydration", child(ChildSign.NO_TEARS), S),
    ("dehydration", child(ChildSign.NO_TEARS, ChildSign.COLD_HANDS), S),
    ("dehydration", child(ChildSign.SLEEPY), E),
    ("dehydration", child(**feels(Symptom.LIMB_CRAMPS)), S),
    ("dehydration", child(**feels(Symptom.LIMB_CRAMPS, Symptom.LITTLE_URINE)), E),
    ("sunken", child(protrusion_mm=-0.5, days_since_surgery=30), S),
    ("sunken", child(protrusion_mm=-0.5, **GROWN_OUT), None),
    ("sunken", child(protrusion_mm=0.0, days_since_surgery=30), None),
    ("sunken", child(protrusion_mm=None, days_since_surgery=30), None),
    ("sunken", child(protrusion_mm=-20.0, days_since_surgery=30), E),
    ("pain", child(pain_0_10=1), S), ("pain", child(pain_0_10=0), None),
    ("pain", child(pain_0_10=None), None),
    ("pain", child(pain_0_10=7, days_since_surgery=30), E),
    ("pyoderma", child(), None),
    ("pyoderma", child(skin=(ULCER,)), None),
    ("pyoderma", child(skin=(ULCER,), pain_0_10=1), D),
    ("pyoderma", child(skin=(UNDERMINED,)), D),
    ("pyoderma", child(skin=(replace(UNDERMINED, enlarging=True),)), S),
    ("pyoderma", child(skin=(UNDERMINED, replace(ULCER, enlarging=True))), S),
    ("raw_skin", child(skin=(seen(SkinKind.EROSION, outer_mm=1.0),)), D),
    ("raw_skin", child(), None),
    ("restless", child(**feels(Symptom.RESTLESS)), S), ("restless", child(), None),
    ("lifeless", child(turgor=Turgor.COLD, **GROWN_OUT), S),
    ("not_growing", child(), None), ("not_growing", child(ChildSign.NOT_GAINING), S),
]  # fmt: skip


@pytest.mark.parametrize(("key", "found", "urgency"), LEVELS)
def test_a_rule_for_children_alone(key: str, found: Findings, urgency: Urgency | None) -> None:
    verdict = judged(key, found)
    assert (None if verdict is None else verdict.urgency) is urgency


def test_an_ulcer_of_a_child_with_bowel_disease() -> None:
    found = child(skin=(seen(SkinKind.ULCER),))
    sick = frozenset({Condition.INFLAMMATORY_BOWEL_DISEASE})
    assert judged("pyoderma", replace(found, person=replace(found.person, has=sick))).urgency is D


@pytest.mark.parametrize(
    ("found", "ask"),
    [
        (child(**feels(Symptom.VOMITING), hours_without_output=0.0), ""),
        (child(**feels(Symptom.VOMITING), hours_without_output=None), "hours without output"),
        (not_asked(child(asked=False, **feels(Symptom.VOMITING), hours_without_output=0.0),
                   Symptom.SWOLLEN_ABDOMEN), "is the vomit green and a swollen abdomen"),
    ],
)  # fmt: skip
def test_vomiting_asks_for_what_would_make_it_an_emergency(found: Findings, ask: str) -> None:
    assert judged("blocked_or_vomiting", found).ask == ask


@pytest.mark.parametrize(
    ("volume", "signs", "days", "urgency", "refer_to"),
    [
        (399.0, (), None, S, "paediatric stoma team"),
        (250.0, (), None, T, "paediatric stoma team, by telephone"),
        (400.0, (), None, E, "paediatric surgical team or emergency department"),
        (400.0, (), 13.9, E, "paediatric surgical team or emergency department"),
        (400.0, (), 14.0, S, "paediatric stoma team"),
        (199.0, (ChildSign.NO_TEARS,), None, T, "paediatric stoma team, by telephone"),
        (300.0, (ChildSign.SLEEPY,), None, E, "paediatric surgical team or emergency department"),
    ],
)
def test_who_judges_the_output(
    volume: float, signs: tuple[ChildSign, ...], days: float | None, urgency: Urgency, refer_to: str
) -> None:
    verdict = judged("output_to_judge", child(*signs, volume_ml_24h=volume, days_at_volume=days))
    assert (verdict.urgency, verdict.refer_to) == (urgency, refer_to)
    assert ("With " in verdict.found) is bool(signs)


@pytest.mark.parametrize(("age", "raised"), [(3, False), (None, True)])
def test_a_rise_above_the_own_mean_is_judged_by_weight_under_16(
    age: int | None, raised: bool
) -> None:
    found = child(volume_ml_24h=900.0, usual_ml_24h=400.0)
    found = replace(found, person=replace(found.person, age_years=age))
    assert (judged("output_risen", found) is not None) is raised


def test_what_is_asked_and_told_of_drying_out_is_kept() -> None:
    found = child(**feels(Symptom.LITTLE_URINE))
    assert judged("dehydration", found).ask == "how little urine, and since when"
    answered = replace(found, output=replace(found.output, hours_without_urine=1.0))
    assert judged("dehydration", answered).ask == ""


@pytest.mark.parametrize(
    ("key", "depth"), [("separation_shallow", 3.0), ("separation", 8.0), ("separation_deep", 25.0)]
)
def test_the_depth_of_a_gap_is_judged_by_limits_for_adults(key: str, depth: float) -> None:
    gap = Separation(ClockHours.of(4, 5), depth, True, effluent_under_skin=False)
    verdict = judged(key, child(junction=(gap,)))
    assert verdict is not None
    assert "limit for adults" in verdict.found or key == "separation_deep"
    assert "apart" not in verdict.found
