"""A urostomy that gives little, is infected or bleeds, and bleeding by tiers (facts of 2026,
sections 1.7 to 1.9). Each row: findings, the flag, its level."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.findings import (
    Baseline,
    BaselineKind,
    Bleeding,
    Colour,
    Condition,
    Findings,
    Medicine,
    Person,
    PouchBlood,
    SkinKind,
    StomaKind,
    Symptom,
    UrineSign,
    Vitals,
)
from planning.results.plan import RedFlag, Urgency
from planning.safety.flags_bleeding import oozing
from planning.safety.flags_urine_blood import blood_in_urine
from tests.planning.builders import ALL, seen, situation, well

E, S, T, D = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE, Urgency.DAYS
W = Urgency.TWO_WEEKS
EVERYTHING = frozenset(Symptom)
SURE = Person(
    sensitivities=frozenset(),
    has_not=frozenset(Condition),
    medicines=frozenset(),
    age_years=40,
)
ANTIPLATELET = replace(SURE, medicines=frozenset({Medicine.ANTIPLATELET}))


def with_(*conditions: Condition) -> Person:
    there = frozenset(conditions)
    return replace(SURE, has=there, has_not=frozenset(Condition) - there)


THINNER, LIVER = with_(Condition.ANTICOAGULANT), with_(Condition.LIVER_DISEASE)


def asked(*present: Symptom, **changes: Any) -> Findings:
    felt = frozenset(present)
    found: dict[str, Any] = {"person": SURE, "absent": EVERYTHING - felt, "present": felt}
    return well(**(found | changes))


def urine(*present: Symptom, **changes: Any) -> Findings:
    return asked(*present, **({"kind": StomaKind.UROSTOMY, "volume_ml_24h": 1500.0,
                               "urine_signs": frozenset()} | changes))  # fmt: skip


def signs(*found: UrineSign) -> dict[str, Any]:
    return {"urine_signs": frozenset(found)}


def raised(found: Findings, history: History | None = None) -> dict[str, RedFlag]:
    return {flag.key: flag for flag in recommend(found, history or History()).red_flags}


def level(found: Findings, key: str, history: History | None = None) -> Urgency | None:
    flag = raised(found, history).get(key)
    return None if flag is None else flag.urgency


UROSTOMY: list[tuple[Findings, str, Urgency | None]] = [
    # no urine, by hours
    (urine(hours_without_output=4.0), "no_urine", E),
    (urine(hours_without_output=3.9), "no_urine", S),
    (urine(hours_without_output=1.9), "no_urine", None),
    (urine(Symptom.LOIN_PAIN, hours_without_output=0.5), "no_urine", E),
    *((urine(symptom, hours_without_output=2.0), "no_urine", E)
      for symptom in (Symptom.VOMITING, Symptom.LIMB_WEAKNESS, Symptom.SWOLLEN_ABDOMEN)),
    # volumes
    (urine(volume_ml_24h=399.0), "little_urine", S),
    (urine(volume_ml_24h=400.0), "little_urine", None),
    (urine(volume_ml_24h=0.0), "little_urine", E),
    (urine(Symptom.LOIN_PAIN, volume_ml_24h=399.0), "little_urine", E),
    (urine(volume_ml_24h=749.0, usual_ml_24h=1500.0), "little_urine", S),
    (urine(volume_ml_24h=750.0, usual_ml_24h=1500.0), "little_urine", None),
    (urine(volume_ml_24h=959.0, person=replace(SURE, weight_kg=80.0)), "little_urine", S),
    (urine(volume_ml_24h=960.0, person=replace(SURE, weight_kg=80.0)), "little_urine", None),
    # infection, potassium, acid
    (urine(vitals=Vitals(temperature_c=38.0)), "urine_infection", E),
    (urine(vitals=Vitals(temperature_c=37.9)), "urine_infection", None),
    (urine(vitals=Vitals(37.0, highest_c=38.2)), "urine_infection", E),
    (urine(Symptom.RIGORS), "urine_infection", E),
    (urine(Symptom.LOIN_PAIN, Symptom.VOMITING), "urine_infection", E),
    (urine(Symptom.LOIN_PAIN, volume_ml_24h=None), "urine_infection", E),
    (urine(Symptom.LOIN_PAIN), "urine_infection", S),
    (urine(Symptom.LIMB_WEAKNESS), "weak_with_urostomy", E),
    (urine(Symptom.TIRED), "unwell_with_urostomy", S),
    (urine(Symptom.CONFUSION), "dehydration", E),
    # stent, stream
    (urine(stent_out_early=True), "stent_out", S),
    (urine(stent_out_early=True, volume_ml_24h=399.0), "stent_out", E),
    (urine(**signs(UrineSign.THIN_LONG_STREAM)), "thin_stream", D),
    (urine(Symptom.LOIN_PAIN, **signs(UrineSign.THIN_LONG_STREAM)), "thin_stream", S),
    (urine(pain_0_10=1, **signs(UrineSign.THIN_LONG_STREAM)), "thin_stream", S),
    # blood in urine
    (urine(**signs(UrineSign.PINK)), "blood_in_urine", T),
    (urine(person=THINNER, **signs(UrineSign.PINK)), "blood_in_urine", S),
    (urine(person=ANTIPLATELET, **signs(UrineSign.PINK)), "blood_in_urine", S),
    (urine(person=replace(SURE, medicines=None), **signs(UrineSign.PINK)), "blood_in_urine", S),
    (urine(pouch_blood=PouchBlood.SEVERAL_EMPTIES), "blood_in_urine", S),
    (urine(**signs(UrineSign.BLOOD)), "blood_in_urine", S),
    (urine(**signs(UrineSign.CLOTS)), "blood_in_urine", E),
    (urine(hours_without_output=2.0, **signs(UrineSign.PINK)), "blood_in_urine", E),
    (urine(Symptom.FAINTNESS, **signs(UrineSign.PINK)), "blood_in_urine", E),
    (urine(bleeding=Bleeding.ON_WIPING), "blood_in_urine", None),
]  # fmt: skip


@pytest.mark.parametrize(("found", "key", "expected"), UROSTOMY)
def test_a_urostomy(found: Findings, key: str, expected: Urgency | None) -> None:
    assert level(found, key) is expected


def test_a_stent_that_is_out_asks_for_the_urine_where_it_is_not_known() -> None:
    found = urine(stent_out_early=True, volume_ml_24h=None)
    found = replace(found, output=replace(found.output, absent=frozenset()))
    assert raised(found)["stent_out"].do.startswith("Ask now: does less urine come than before.")


def test_cancer_on_record_is_looked_into_even_when_the_blood_has_stopped() -> None:
    """``blood_stopped``."""
    cancer = with_(Condition.CANCER)
    before = History(previous=(urine(person=cancer, **signs(UrineSign.PINK)),))
    assert level(urine(person=cancer), "blood_stopped", before) is W
    assert level(urine(), "blood_stopped", before) is None
    assert level(urine(person=cancer), "blood_stopped") is None
    assert "urology within two weeks" in raised(before.previous[0])["blood_in_urine"].do


def test_pink_urine_that_the_team_told_of_is_as_known_until_it_changes() -> None:
    told = History(baselines=(Baseline(BaselineKind.PINK_URINE_OR_MUCUS, "urologist",
                                       review_in_days=5.0),))  # fmt: skip
    pink, clots = urine(**signs(UrineSign.PINK)), urine(**signs(UrineSign.PINK, UrineSign.CLOTS))
    assert level(pink, "blood_in_urine", told) is None
    assert level(clots, "blood_in_urine", told) is E
    hot = urine(vitals=Vitals(temperature_c=38.1), **signs(UrineSign.PINK))
    assert level(hot, "blood_in_urine", told) is T
    mucus = urine(**signs(UrineSign.CLOUDY))
    assert level(mucus, "cloudy_urine", told) is None
    assert level(mucus, "cloudy_urine") is D


BLEEDING: list[tuple[Findings, str, Urgency | None]] = [
    # 1 and 2: contact
    (asked(bleeding=Bleeding.ON_WIPING), "contact_on_anticoagulant", None),
    (asked(bleeding=Bleeding.ON_WIPING, person=THINNER), "contact_on_anticoagulant", T),
    (asked(bleeding=Bleeding.ON_WIPING, person=with_(Condition.LOW_PLATELETS)),
     "contact_on_anticoagulant", T),
    (asked(bleeding=Bleeding.ON_WIPING, person=LIVER), "variceal_bleed", T),
    (asked(bleeding=Bleeding.ON_WIPING, person=ANTIPLATELET), "contact_on_anticoagulant", None),
    # 3: persistent
    (asked(bleeding=Bleeding.SEVERAL_EMPTIES), "blood_in_output", S),
    (asked(pouch_blood=PouchBlood.ONCE), "blood_in_output", S),
    (asked(pouch_blood=PouchBlood.ONCE, person=ANTIPLATELET), "blood_in_output", S),
    (asked(pouch_blood=PouchBlood.ONCE, person=THINNER), "blood_in_output", E),
    (asked(pouch_blood=PouchBlood.ONCE, person=LIVER), "variceal_bleed", E),
    (asked(Symptom.FAINTNESS, bleeding=Bleeding.OOZE_AT_JUNCTION), "oozing", E),
    (asked(bleeding=Bleeding.OOZE_AT_JUNCTION, colour=Colour.PALE), "oozing", E),
    (asked(bleeding=Bleeding.OOZE_AT_JUNCTION, person=ANTIPLATELET), "oozing", S),
    # 4: heavy
    (asked(bleeding=Bleeding.SPURTING_OR_UNSTOPPED), "spurting", E),
    (asked(bleeding=Bleeding.FROM_LUMEN, vitals=Vitals(pulse=101.0)), "heavy_bleed", E),
    (asked(bleeding=Bleeding.FROM_LUMEN, vitals=Vitals(pulse=100.0)), "heavy_bleed", None),
    (asked(bleeding=Bleeding.ON_WIPING, vitals=Vitals(pulse=101.0)), "heavy_bleed", None),
    (asked(pouch_blood=PouchBlood.CLOTS), "blood_in_output", E),
    # veins
    (asked(skin=(seen(SkinKind.DILATED_VEINS),)), "veins", D),
    (asked(skin=(seen(SkinKind.DILATED_VEINS),), bleeding=Bleeding.ON_WIPING),
     "variceal_bleed", T),
    (asked(skin=(seen(SkinKind.DILATED_VEINS),), bleeding=Bleeding.OOZE_AT_JUNCTION),
     "variceal_bleed", E),
    (asked(person=LIVER), "variceal_bleed", None),
    # stopped, and food
    (asked(bleeding_stopped_days=14.0), "bleed_stopped", S),
    (asked(bleeding_stopped_days=14.5), "bleed_stopped", None),
    (asked(pouch_blood=PouchBlood.FOOD_COLOUR), "red_food", None),
    (asked(pouch_blood=PouchBlood.FOOD_COLOUR, bleeding=None), "red_food", S),
    (asked(Symptom.FAINTNESS, pouch_blood=PouchBlood.FOOD_COLOUR), "red_food", E),
]  # fmt: skip


@pytest.mark.parametrize(("found", "key", "expected"), BLEEDING)
def test_a_tier_of_bleeding(found: Findings, key: str, expected: Urgency | None) -> None:
    assert level(found, key) is expected


def test_contact_with_nothing_known_is_asked_and_a_call_if_it_comes_again() -> None:
    unknown = well(bleeding=Bleeding.ON_WIPING)
    plan = recommend(unknown)
    assert plan.urgency is Urgency.ROUTINE
    assert not plan.leave_alone
    assert any("Ask at this visit: a blood thinner" in n.text for n in plan.notices)
    again = History(previous=(unknown,))
    assert level(unknown, "contact_on_anticoagulant", again) is T
    assert level(asked(bleeding=Bleeding.ON_WIPING), "contact_on_anticoagulant", again) is None


def test_an_anticoagulant_that_nobody_asked_about_is_asked_about() -> None:
    flag = raised(well(bleeding=Bleeding.FROM_LUMEN))["blood_in_output"]
    assert flag.urgency is S
    assert flag.do.startswith("Ask now: an anticoagulant, liver disease.")


def known(kind: BaselineKind, previous: tuple[Findings, ...] = ()) -> History:
    return History(previous=previous, baselines=(Baseline(kind, "liver team", review_in_days=9.0),))


def test_drops_told_of_are_known_until_they_are_more_or_a_drug_is_new() -> None:
    drops = asked(bleeding=Bleeding.ON_WIPING, person=THINNER)
    told = known(BaselineKind.CONTACT_BLEEDING)
    assert recommend(drops, told).leave_alone
    assert level(asked(bleeding=Bleeding.FROM_LUMEN, person=THINNER), "blood_in_output", told) is E
    both = replace(THINNER, medicines=frozenset({Medicine.ANTIPLATELET}))
    begun = asked(bleeding=Bleeding.ON_WIPING, person=both)
    since = known(BaselineKind.CONTACT_BLEEDING, (drops,))
    assert level(begun, "contact_on_anticoagulant", since) is T
    assert level(drops, "contact_on_anticoagulant", since) is None


def test_veins_told_of_are_known_until_there_are_more_or_one_bleeds() -> None:
    ring = seen(SkinKind.DILATED_VEINS)
    before = asked(skin=(ring,))
    told = known(BaselineKind.VARICES, (before,))
    assert level(before, "veins", told) is None
    wider = asked(skin=(ring, seen(SkinKind.DILATED_VEINS, ALL)))
    assert level(wider, "veins", told) is D
    bled = asked(skin=(ring,), bleeding=Bleeding.ON_WIPING)
    assert level(bled, "variceal_bleed", told) is T
    thinner = asked(
        skin=(ring,), person=replace(SURE, medicines=frozenset({Medicine.ANTIPLATELET}))
    )
    assert level(thinner, "veins", told) is D


@pytest.mark.parametrize(
    ("medicines", "liver_asked", "ask"),
    [
        (frozenset[Medicine](), True, ""),
        (None, True, "an anticoagulant"),
        (frozenset[Medicine](), False, "liver disease"),
        (None, False, "an anticoagulant, liver disease"),
    ],
)
def test_blood_at_the_junction_asks_only_for_what_is_not_known(
    medicines: frozenset[Medicine] | None, liver_asked: bool, ask: str
) -> None:
    without = frozenset({Condition.LIVER_DISEASE}) if liver_asked else frozenset[Condition]()
    person = Person(medicines=medicines, has_not=without)
    found = well(bleeding=Bleeding.OOZE_AT_JUNCTION, person=person)
    verdict = oozing(situation(found).facts)
    assert verdict is not None
    assert (verdict.urgency, verdict.ask) == (Urgency.SAME_DAY, ask)


@pytest.mark.parametrize(
    ("bleeding", "at"),
    [
        (Bleeding.FROM_LUMEN, "measurement.bleeding"),
        (Bleeding.SEVERAL_EMPTIES, "measurement.bleeding"),
        (Bleeding.ON_WIPING, None),
    ],
)
def test_blood_from_inside_a_urostomy_is_blood_in_the_urine(
    bleeding: Bleeding, at: str | None
) -> None:
    found = well(kind=StomaKind.UROSTOMY, bleeding=bleeding, urine_signs=frozenset(), person=SURE)
    verdict = blood_in_urine(situation(found).facts)
    assert (None if verdict is None else verdict.at) == at
