"""Under 16: every danger sign, no figure for adults, and the birthday itself."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planning import Findings, History, Plan, recommend
from planning.children.dangers import IN_WORDS
from planning.children.missing import DEMANDED
from planning.children.plan import CLEAR_OF_NAPPY, NO_RULES, WORDS
from planning.counterfactual import counterfactuals
from planning.inputs.age import AgeGroup, age_group
from planning.inputs.clock import HOURS
from planning.inputs.findings import (
    Bleeding,
    Colour,
    Condition,
    Consistency,
    Medicine,
    Person,
    SkinKind,
    StomaKind,
    Symptom,
    Turgor,
    UrineSign,
    Vitals,
)
from planning.results.plan import Urgency
from planning.results.snapshot import (
    findings_from_dict,
    findings_to_dict,
    plan_from_dict,
    plan_to_dict,
)
from planning.results.text_json import text_from_json
from planning.safety.flag import FlagRule
from planning.safety.red_flags import NOT_FOR_ADULTS, RULES
from tests.planning.builders import leaking, raw, seen, situation, well
from tests.planning.safety.test_red_flags import ROWS, bulge, feels, gap, prolapse
from tests.planning.strategies import findings, plain_histories, young

E, S, T, D = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE, Urgency.DAYS
URO = {"kind": StomaKind.UROSTOMY}
many = settings(max_examples=40)
#: Not words of the plan: ids of sources and codes, keys, the version of the rules.
NOT_SAID = {"sources", "code", "release", "rule_set", "key", "finding", "includes"}


def aged(found: Findings, years: int | None) -> Findings:
    return replace(found, person=replace(found.person, age_years=years))


def said(value: object, name: str = "") -> Iterator[str]:
    """Every text of a plan's snapshot, what it says to the patient with its parts in it."""
    if name == "patient_text" and value:
        yield text_from_json(value).english()
    elif isinstance(value, dict):
        for inner, part in value.items():
            yield from said(part, inner)
    elif isinstance(value, list):
        for part in value:
            yield from said(part, name)
    elif isinstance(value, str) and name not in NOT_SAID:
        yield value


def charted(found: object) -> set[str]:
    """Every number in the findings, as words say it, and every hour round the stoma."""
    numbers = re.findall(r"\d+(?:\.\d+)?", re.sub(r"\.0\b", "", str(found)))
    return {str(hour) for hour in HOURS} | set(numbers)


def figures(plan: Plan) -> set[str]:
    words = " ".join(said(plan_to_dict(plan)))
    return set(re.findall(r"\d+(?:\.\d+)?", words))


def own_figures(found: Findings) -> set[str]:
    """20, 30 and 40 mL/kg in 24 hours, and what comes of this weight."""
    allowed = {"20", "30", "40", "24"}
    volume, weight = found.output.volume_ml_24h, found.person.weight_kg
    if volume is not None and weight:
        allowed |= {f"{volume / weight:.1f}", f"{volume / weight:g}", f"{weight:g}"}
    return allowed


def flags(found: Findings) -> dict[str, Urgency]:
    raised = recommend(found).red_flags
    return {key: flag.urgency for flag in raised for key in (flag.key, *flag.includes)}


# --- no figure ------------------------------------------------------------------------------
@many
@given(findings, plain_histories, young)
def test_no_figure_stands_in_a_plan_under_16(found: Findings, past: History, age: int) -> None:
    """Whatever is found, a plan says no number that the nurse did not chart, but those of the
    rules for children and the output by this child's own weight."""
    plan = recommend(aged(found, age), past)
    numbers = replace(found.output, present=frozenset(), absent=frozenset())
    assert figures(plan) <= charted(numbers) | charted(past.baselines) | own_figures(found)
    assert plan.made_for is AgeGroup.CHILD


@many
@given(findings, plain_histories, young | st.none())
def test_nothing_is_fitted(found: Findings, past: History, age: int | None) -> None:
    plan = recommend(aged(found, age), past)
    assert not any((plan.supplies, plan.steps, plan.quantities, plan.needs))
    assert plan.causes.causes == ()
    assert plan.expected_wear is None
    assert plan.runner_up is None
    assert plan.leave_alone is False
    known = {k: v for k, v in plan_to_dict(plan)["dimensions"].items() if v not in (None, [])}
    assert set(known) <= {
        *("stoma_length_mm", "stoma_width_mm", "stoma_area_mm2", "stoma_perimeter_mm"),
        "stoma_outline",
    }
    assert {r.key.partition("_")[0] for r in plan.recommendations} <= {
        *("meanwhile", "clear", "as", "never", "paediatric", "refer"),
    }
    assert plan_from_dict(plan_to_dict(plan)) == plan


def test_it_says_plainly_that_there_are_no_rules() -> None:
    plan = recommend(well(age_years=8, volume_ml_24h=None))
    assert plan.headline == NO_RULES
    assert plan.urgency is Urgency.ROUTINE
    assert plan.notices[0].text.startswith(NO_RULES)
    assert {"as_given", "never", "paediatric_team"} == {r.key for r in plan.recommendations}
    assert plan.follow_up.text == "See or telephone again tomorrow."
    assert plan.follow_up.because[0].text == WORDS[AgeGroup.CHILD].again


def test_a_danger_goes_before_that_and_an_emergency_alone() -> None:
    today = recommend(well(age_years=8, present=frozenset({Symptom.FEVER})))
    assert today.headline.startswith("Fever")
    assert today.headline.endswith(NO_RULES)
    now = recommend(well(age_years=8, colour=Colour.BLACK_BROWN_GREY))
    assert now.headline.startswith("Emergency.")
    assert [r.key for r in now.recommendations][:2] == ["meanwhile", "never"]


def test_nothing_is_searched_that_would_change_it() -> None:
    assert counterfactuals(leaking(age_years=8), History(), "paediatric_team") == ()


# --- danger ---------------------------------------------------------------------------------
SIGNS: list[tuple[str, dict[str, Any], Urgency]] = [
    ("necrosis", {"colour": Colour.BLACK_BROWN_GREY}, E),
    ("necrosis", {"colour": Colour.PURPLE, "turgor": Turgor.COLD}, E),
    ("dusky", {"colour": Colour.DUSKY}, S),
    ("pale", {"colour": Colour.PALE}, S),
    ("spurting", {"bleeding": Bleeding.SPURTING_OR_UNSTOPPED}, E),
    ("blood_in_output", {"bleeding": Bleeding.FROM_LUMEN}, S),
    ("prolapse_trapped", prolapse(reducible=False), S),
    ("hernia_trapped", bulge(reducible=False, painful=True), E),
    ("separation_deep", gap(base_visible=False), S),
    ("separation", gap(), D),
    ("urine_infection", {**URO, **feels(Symptom.FEVER)}, E),
    ("anaphylaxis", feels(Symptom.FACE_SWELLING_OR_WHEEZE), E),
    ("dehydration", feels(Symptom.LITTLE_URINE), S),
    ("dehydration", feels(Symptom.FAINTNESS), E),
    ("infection", {"skin": (seen(SkinKind.SPREADING_WARMTH),)}, S),
    ("abscess", {"skin": (seen(SkinKind.ABSCESS),), **feels(Symptom.FEVER)}, E),
]


@pytest.mark.parametrize("age", [1, 8, 15, 40])
@pytest.mark.parametrize(("key", "changes", "urgency"), SIGNS)
def test_a_danger_sign_holds_at_any_age(
    key: str, changes: dict[str, Any], urgency: Urgency, age: int
) -> None:
    raised = flags(well(age_years=age, **changes))
    assert raised[key].rank <= urgency.rank


#: What is made of a rule has another key where it says something else.
MADE_OF = {"high_output": "output_to_judge", "output_risen": "output_to_judge"}


@pytest.mark.parametrize(("key", "changes", "urgency"), ROWS)
def test_no_row_of_the_table_is_lost_or_less_urgent(
    key: str, changes: dict[str, Any], urgency: Urgency | None
) -> None:
    """Each example of a danger in an adult, at 8 years and at an age no one recorded."""
    if urgency is None:
        return
    adult_vitals = "vitals" in changes
    for age in (None,) if adult_vitals else (8, None):
        # A child's pulse, breathing and blood pressure are not held against an adult's.
        raised = flags(aged(well(**changes), age))
        assert raised[MADE_OF.get(key, key)].rank <= urgency.rank


@many
@given(findings, plain_histories, young)
def test_danger_in_an_adult_is_danger_under_16(found: Findings, past: History, age: int) -> None:
    """But for what only an adult's figures judge: vital signs, urine in mL, kg lost."""
    bare = replace(found.output, vitals=Vitals(), urine_ml_24h=None, hours_without_urine=None)
    found, past = replace(found, output=bare), replace(past, weighings=())
    raised = situation(aged(found, age), past).flags
    by_key = {key: flag.urgency for flag in raised for key in (flag.key, *flag.includes)}
    facts = situation(found, past).facts
    # With a weight a child's output is judged by it alone (facts of 2026, section 6).
    weighed = {"output_to_judge"} if found.person.weight_kg else set()
    for rule in RULES:
        if (verdict := rule.judge(facts)) is None:
            continue
        key = MADE_OF.get(rule.key, rule.key)
        if key == "little_urine" and key not in by_key:
            key = "output_to_judge"  # a urostomy's urine is its output
        if key not in weighed:
            assert by_key[key].rank <= verdict.urgency.rank


ON_DIURETIC = Person(medicines=frozenset({Medicine.DIURETIC}), age_years=3)
UNDER_16: list[tuple[str, dict[str, Any], Urgency | None]] = [
    ("dusky", {"colour": Colour.DUSKY, "days_since_surgery": 300}, E),
    ("blocked_or_vomiting", feels(Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN), E),
    ("blocked_or_vomiting", {**feels(Symptom.VOMITING), "hours_without_output": 1.0}, E),
    ("blocked_or_vomiting", {**feels(Symptom.VOMITING), "hours_without_output": 0.0}, S),
    ("blocked_or_vomiting", {**URO, **feels(Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN)}, E),
    ("blocked_or_vomiting", feels(Symptom.SEVERE_CRAMPS, Symptom.SWOLLEN_ABDOMEN), E),
    ("blocked_or_vomiting", feels(Symptom.SEVERE_CRAMPS), S),
    ("blocked_or_vomiting", feels(Symptom.SWOLLEN_ABDOMEN), S),
    ("blocked_or_vomiting", feels(Symptom.MILD_CRAMPS), None),
    ("output_to_judge", {"volume_ml_24h": 300.0}, S),
    ("output_to_judge", {"volume_ml_24h": 2000.0}, E),
    ("output_to_judge", {"volume_ml_24h": None}, None),
    ("output_to_judge", {**URO, "volume_ml_24h": 90.0}, S),
    ("watery", {"watery_for_hours": 2.0}, S),
    ("watery", {"watery_for_hours": 0.0}, None),
    ("fever", feels(Symptom.FEVER), S),
    ("fever", {}, None),
    ("pain", {"pain_0_10": 2}, S),
    ("pain", {"pain_0_10": 0}, None),
    ("pyoderma", {"skin": (seen(SkinKind.ULCER),), "pain_0_10": 2}, D),
    ("raw_skin", {"skin": (raw(outer_mm=4.0),)}, D),
    ("raw_skin", {"skin": (seen(SkinKind.ERYTHEMA),)}, None),
    ("lifeless", {"turgor": Turgor.COLD, "days_since_surgery": 3}, E),
    ("lifeless", {"turgor": Turgor.MOIST_SOFT, "days_since_surgery": 3}, None),
    ("slough", {"colour": Colour.YELLOW_SLOUGH, "days_since_surgery": 5}, S),
    ("sunken", {"protrusion_mm": -1.0, "days_since_surgery": 5}, S),
    ("sunken", {"protrusion_mm": -25.0, "days_since_surgery": 5}, E),
    ("sunken", {"protrusion_mm": 0.0, "days_since_surgery": 5}, None),
    ("unseen", {"colour": None, "days_since_surgery": 5}, S),
    ("fever_after_surgery", {**feels(Symptom.FEVER), "days_since_surgery": 5}, S),
    ("loin_pain", feels(Symptom.LOIN_PAIN), D),
    ("blocked_beside_urostomy", {**URO, **feels(Symptom.MILD_CRAMPS)}, D),
    ("fistula", {"skin": (seen(SkinKind.FISTULA),)}, D),
    ("unmeasured_output", {"volume_ml_24h": None, **feels(Symptom.DRY_MOUTH)}, T),
    ("output_risen", {"volume_ml_24h": 900.0, "usual_ml_24h": 400.0}, None),
    ("heavy_bleed",
     {"bleeding": Bleeding.OOZE_AT_JUNCTION, "vitals": Vitals(pulse=120.0)}, None),
    ("dehydration", {"vitals": Vitals(pulse=120.0)}, None),
    ("dehydration", {"urine_ml_24h": 700.0}, None),
    ("dehydration", {"hours_without_urine": 6.0}, E),
    ("dehydration", {"hours_without_urine": 5.9}, None),
    ("bleed_stopped", {"bleeding_stopped_days": 3.0}, S),
    ("urine_infection", {**URO, **feels(Symptom.LOIN_PAIN)}, S),
    ("stent_out", {**URO, "stent_out_early": True}, S),
    ("thin_stream", {**URO, "urine_signs": frozenset({UrineSign.THIN_LONG_STREAM})}, D),
    ("blood_in_urine", {**URO, "urine_signs": frozenset({UrineSign.CLOTS})}, E),
    ("blood_stopped", {}, None),
    ("drug_with_losses", {"person": ON_DIURETIC, **feels(Symptom.DIZZY_ON_STANDING)}, S),
    ("restless", feels(Symptom.RESTLESS), S),
    ("not_growing", feels(Symptom.TIRED), S),
    ("not_growing", {}, None),
]  # fmt: skip


@pytest.mark.parametrize(("key", "changes", "urgency"), UNDER_16)
def test_judged_on_symptoms_alone(
    key: str, changes: dict[str, Any], urgency: Urgency | None
) -> None:
    assert flags(well(**changes, age_years=3)).get(key) is urgency


#: Past a limit for adults: said without the limit, at the urgency it has.
KEPT: list[tuple[str, dict[str, Any]]] = [
    ("blocked_ileostomy", {"hours_without_output": 6.0}),
    ("blocked_colostomy", {"kind": StomaKind.COLOSTOMY, "hours_without_output": 72.0}),
    ("no_urine", {**URO, "hours_without_output": 4.0}),
]


@pytest.mark.parametrize(("key", "changes"), KEPT)
def test_past_a_limit_for_adults_is_still_danger(key: str, changes: dict[str, Any]) -> None:
    child = {flag.key: flag for flag in recommend(well(age_years=8, **changes)).red_flags}
    grown = flags(well(**changes))
    assert child[key].urgency is grown[key]
    numbers = re.findall(r"\d+", child[key].because[0].text)
    assert numbers == []


def test_leaks_and_skin_that_does_not_heal_are_for_the_paediatric_team() -> None:
    made = {rule.key: rule for rule in NOT_FOR_ADULTS}
    for key in ("leaks_daily", "raw_skin"):
        assert made[key].refer_to == "paediatric stoma team"
    assert made["not_healing"].text == "Skin that does not get better"
    assert made["lasting_lump"].text == "Lump that has lasted"
    assert isinstance(made["watery"], FlagRule)


# --- what is asked, what is shown -----------------------------------------------------------
def asked(found: Findings) -> list[str]:
    return [reason.text for reason in recommend(found).missing]


def test_a_weight_is_demanded_by_name() -> None:
    first, growth = asked(well(age_years=8))[:2]
    assert first.startswith("Weight and its day are not on record")
    assert growth.startswith("Growth")
    assert asked(well(age_years=8, weight_kg=25.1))[0] == growth
    assert {lack.key for lack in DEMANDED} == {
        *("person.weight", "person.growth", "output.volume_of_a_day", "output.green_vomit"),
    }
    assert any("in a day" in text for text in asked(well(age_years=8, volume_ml_24h=None)))
    assert not any("in a day" in text for text in asked(well(age_years=8)))
    vomits = well(age_years=8, **feels(Symptom.VOMITING))
    assert any("green" in text for text in asked(vomits))
    assert not any("green" in text for text in asked(well(age_years=8)))


def told(found: Findings) -> str:
    return " ".join(str(line.patient_text) for line in recommend(found).call_when)


def test_when_to_call_is_told_without_figures() -> None:
    words = told(well(age_years=8))
    for line in (
        *("bleeds and does not stop while you press", "vomit is green", "very sleepy"),
        *("belly is swollen or nothing comes out", "strong pain or cramps"),
        *("uch more or much less", "watery"),
    ):
        assert line in words
    assert "no urine comes" in told(well(age_years=8, **URO)).lower()
    assert "watery" not in told(well(age_years=8, **URO))
    assert {danger.key for danger in IN_WORDS} == {
        *("bleeds_under_pressure", "green_vomit", "vomit_and_swollen", "strong_pain", "sleepy"),
        *("urine_gone", "more_or_less", "comes_watery", "less_wet", "dry_or_sunken"),
    }


def test_parents_are_told_the_signs_of_drying_out() -> None:
    for line in ("fewer nappies are wet", "mouth is dry", "eyes look sunken"):
        assert line in told(well(age_years=0)).lower()


def test_a_leaking_pouch_of_a_baby_is_turned_clear_of_the_nappy() -> None:
    def keys(found: Findings) -> set[str]:
        return {item.key for item in recommend(found).recommendations}

    assert CLEAR_OF_NAPPY.key == "clear_of_nappy"
    assert "clear_of_nappy" in keys(leaking(age_years=0))
    assert "clear_of_nappy" not in keys(leaking(age_years=8))
    assert "clear_of_nappy" not in keys(well(age_years=0))


def test_nothing_told_waits_longer_than_the_same_day() -> None:
    lines = recommend(well(age_years=8)).call_when
    assert {line.urgency for line in lines} == {E, S}
    assert any("leaks, itches or burns" in str(line.patient_text) for line in lines)


def test_bleeding_veins_are_told_of_at_any_age() -> None:
    liver = Person(has=frozenset({Condition.LIVER_DISEASE}), age_years=8)
    veins = well(person=liver, skin=(seen(SkinKind.DILATED_VEINS),))
    assert "even a little" in told(veins)


# --- age ------------------------------------------------------------------------------------
def test_sixteen_is_an_adult_fifteen_is_not() -> None:
    child, grown = (recommend(leaking(age_years=age)) for age in (15, 16))
    assert (child.made_for, grown.made_for) == (AgeGroup.CHILD, AgeGroup.ADULT)
    assert child.supplies == ()
    assert grown.supplies
    assert [age_group(age) for age in (None, 0, 15, 16)] == [
        *(AgeGroup.UNKNOWN, AgeGroup.CHILD, AgeGroup.CHILD, AgeGroup.ADULT),
    ]


def test_an_age_nobody_recorded_is_neither() -> None:
    """No plan, every danger sign, and the age is asked for by name."""
    plan = recommend(leaking(age_years=None))
    assert plan.made_for is AgeGroup.UNKNOWN
    assert plan.supplies == ()
    assert not plan.leave_alone
    assert plan.headline.endswith(WORDS[AgeGroup.UNKNOWN].headline)
    assert "person.age_years" in {reason.finding for reason in plan.missing}
    assert "person.age_years" not in {r.finding for r in recommend(leaking()).missing}
    assert {flag.refer_to for flag in plan.red_flags} & {
        "stoma team (under sixteen: paediatric stoma team), by telephone"
    }


def test_findings_and_plans_stored_without_an_age_still_load() -> None:
    stored = findings_to_dict(leaking(consistency=Consistency.LIQUID))
    del stored["person"]["age_years"]
    assert findings_from_dict(stored).person.age_years is None
    plan = plan_to_dict(recommend(leaking()))
    del plan["made_for"]
    assert plan_from_dict(plan).made_for is AgeGroup.ADULT
