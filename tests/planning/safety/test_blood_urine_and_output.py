"""Bleeding, urine and output: each rule alone, either side of each figure, and what it asks."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning import History
from planning.inputs.findings import (
    Baseline,
    BaselineKind,
    Bleeding,
    BloodTests,
    Colour,
    Condition,
    Consistency,
    Findings,
    Medicine,
    PouchBlood,
    SkinKind,
    StomaKind,
    Symptom,
    UrineSign,
    Vitals,
)
from planning.results.plan import Urgency
from planning.safety import medicines
from planning.safety.flags_bleeding import (
    bleed_stopped,
    blood_in_output,
    contact,
    heavy,
    oozing,
    red_food,
    spurting,
    variceal,
    veins,
)
from planning.safety.flags_output import dehydrated, high_output, risen, unmeasured_signs, watery
from planning.safety.flags_urine import (
    cloudy_urine,
    little_urine,
    no_urine,
    stent_out,
    thin_stream,
    unwell_with_urostomy,
    urine_infection,
    weak_with_urostomy,
)
from planning.safety.flags_urine_blood import blood_in_urine, blood_stopped
from tests.planning.builders import seen, situation
from tests.planning.safety.dangers import KNOWN
from tests.planning.safety.judged import D, E, S, T, W, ask, found, having, level, said, verdict

WIPED: dict[str, Any] = {"bleeding": Bleeding.ON_WIPING}
OOZES: dict[str, Any] = {"bleeding": Bleeding.OOZE_AT_JUNCTION}
LUMEN: dict[str, Any] = {"bleeding": Bleeding.FROM_LUMEN}
VEINS: dict[str, Any] = {"skin": (seen(SkinKind.DILATED_VEINS),)}
LIVER, CANCER = having(Condition.LIVER_DISEASE), having(Condition.CANCER)
THINNED = replace(KNOWN, medicines=frozenset({Medicine.ANTICOAGULANT}))
FAST: dict[str, Any] = {"vitals": Vitals(pulse=101.0)}
URO: dict[str, Any] = {"kind": StomaKind.UROSTOMY, "volume_ml_24h": 1500.0,
                       "urine_signs": frozenset()}  # fmt: skip
COLO: dict[str, Any] = {"kind": StomaKind.COLOSTOMY}


def pouch(blood: PouchBlood | None) -> dict[str, Any]:
    return {"pouch_blood": blood}


def signs(*seen_: UrineSign) -> dict[str, Any]:
    return {**URO, "urine_signs": frozenset(seen_)}


def known(kind: BaselineKind, **how: Any) -> History:
    return History(baselines=(Baseline(kind, "the team", review_in_days=30.0, **how),))


Row = tuple[Any, Findings, Urgency | None]

BLOOD: list[Row] = [
    (spurting, found(), None),
    (spurting, found(bleeding=Bleeding.SPURTING_OR_UNSTOPPED), E),
    (heavy, found(**OOZES), None), (heavy, found(**OOZES, **FAST), E),
    (heavy, found(**OOZES, vitals=Vitals(pulse=100.0)), None),
    (heavy, found(**WIPED, **FAST), None), (heavy, found(**pouch(PouchBlood.ONCE), **FAST), E),
    (heavy, found(**FAST), None),
    (veins, found(), None), (veins, found(**VEINS), D),
    (variceal, found(person=LIVER), None), (variceal, found(**VEINS), None),
    (variceal, found(**OOZES), None),
    (variceal, found(person=LIVER, **WIPED), T), (variceal, found(**VEINS, **WIPED), T),
    (variceal, found(person=LIVER, **OOZES), E), (variceal, found(**VEINS, **LUMEN), E),
    (variceal, found(person=LIVER, **pouch(PouchBlood.ONCE)), E),
    (variceal, found(person=LIVER, **WIPED, **pouch(PouchBlood.ONCE)), E),
    (variceal, found(person=LIVER, **pouch(PouchBlood.FOOD_COLOUR)), None),
    (variceal, found(person=LIVER, **pouch(PouchBlood.ONCE), **URO), None),
    (variceal, found(person=LIVER, bleeding=None), None),
    (blood_in_output, found(), None), (blood_in_output, found(**OOZES), None),
    (blood_in_output, found(**LUMEN), S), (blood_in_output, found(**LUMEN, **URO), None),
    (blood_in_output, found(**pouch(PouchBlood.ONCE)), S),
    (blood_in_output, found(**pouch(PouchBlood.FOOD_COLOUR)), None),
    (blood_in_output, found(**pouch(PouchBlood.CLOTS)), E),
    (oozing, found(**OOZES), S), (oozing, found(**WIPED), None),
    (oozing, found(**OOZES, person=LIVER), None),
    *((judge, found(*felt, **bleeds, **changes), E)
      for judge, bleeds in ((oozing, OOZES), (blood_in_output, LUMEN))
      for felt, changes in (
          ((Symptom.FAINTNESS,), {}), ((Symptom.DIZZY_ON_STANDING,), {}), ((Symptom.PALE,), {}),
          ((), {"colour": Colour.PALE}), ((), {"person": THINNED}))),
    (blood_in_output, found(**LUMEN, person=LIVER), E),
    (red_food, found(), None), (red_food, found(**pouch(PouchBlood.ONCE), bleeding=None), None),
    (red_food, found(**pouch(PouchBlood.FOOD_COLOUR)), None),
    (red_food, found(**pouch(PouchBlood.FOOD_COLOUR), bleeding=None), S),
    (red_food, found(**pouch(PouchBlood.FOOD_COLOUR), bleeding=Bleeding.ON_WIPING), S),
    (red_food, found(**pouch(PouchBlood.FOOD_COLOUR), bleeding=Bleeding.FROM_LUMEN), None),
    (red_food, found(**pouch(PouchBlood.FOOD_COLOUR), bleeding=None, **URO), None),
    (red_food, found(Symptom.DIZZY_ON_STANDING, **pouch(PouchBlood.FOOD_COLOUR)), E),
    (contact, found(**WIPED), None), (contact, found(**WIPED, person=THINNED), T),
    (contact, found(**WIPED, person=having(Condition.LOW_PLATELETS)), T),
    (contact, found(**OOZES, person=THINNED), None), (contact, found(person=THINNED), None),
    (contact, found(**WIPED, **VEINS, person=THINNED), None),
    (bleed_stopped, found(bleeding_stopped_days=14.0), S),
    (bleed_stopped, found(bleeding_stopped_days=14.1), None), (bleed_stopped, found(), None),
]  # fmt: skip

ILL = (Symptom.LOIN_PAIN, Symptom.FEVER, Symptom.RIGORS, Symptom.VOMITING, Symptom.FAINTNESS,
       Symptom.CONFUSION, Symptom.SWOLLEN_ABDOMEN, Symptom.LIMB_WEAKNESS, Symptom.PALPITATIONS,
       Symptom.LOOKS_ILL)  # fmt: skip
HEAVY_PERSON = replace(KNOWN, weight_kg=100.0)
URINE: list[Row] = [
    (no_urine, found(**URO), None), (no_urine, found(hours_without_output=9.0), None),
    *((no_urine, found(**URO, hours_without_output=count), urgency)
      for count, urgency in ((1.9, None), (2.0, S), (3.9, S), (4.0, E), (None, None))),
    *((no_urine, found(sign, **URO, hours_without_output=2.0), E) for sign in ILL),
    (no_urine, found(Symptom.TIRED, **URO, hours_without_output=2.0), S),
    (no_urine, found(**URO, hours_without_output=2.0, vitals=Vitals(38.0)), E),
    (no_urine, found(Symptom.LOIN_PAIN, **URO, hours_without_output=0.1), E),
    (no_urine, found(Symptom.VOMITING, **URO, hours_without_output=1.9), None),
    *((little_urine, found(**URO | {"volume_ml_24h": volume}), urgency)
      for volume, urgency in ((0.0, E), (1.0, S), (399.0, S), (400.0, None), (None, None))),
    *((little_urine, found(sign, **URO | {"volume_ml_24h": 399.0}), E) for sign in ILL),
    (little_urine, found(volume_ml_24h=100.0), None),
    (little_urine, found(**URO | {"volume_ml_24h": 999.0}, usual_ml_24h=2000.0), S),
    (little_urine, found(**URO | {"volume_ml_24h": 1000.0}, usual_ml_24h=2000.0), None),
    (little_urine, found(**URO | {"volume_ml_24h": 399.0}, usual_ml_24h=600.0), S),
    (little_urine, found(**URO | {"volume_ml_24h": 1199.0}, person=HEAVY_PERSON), S),
    (little_urine, found(**URO | {"volume_ml_24h": 1200.0}, person=HEAVY_PERSON), None),
    (little_urine, found(**URO | {"volume_ml_24h": 1199.0},
                         person=replace(HEAVY_PERSON, age_years=8)), None),
    (stent_out, found(**URO), None), (stent_out, found(stent_out_early=True), None),
    (stent_out, found(**URO, stent_out_early=True), S),
    (stent_out, found(Symptom.LITTLE_URINE, **URO, stent_out_early=True), E),
    (stent_out, found(**URO, stent_out_early=True, hours_without_output=2.0), E),
    (stent_out, found(**URO | {"volume_ml_24h": 399.0}, stent_out_early=True), E),
    (thin_stream, found(**URO), None), (thin_stream, found(**signs(UrineSign.CLOUDY)), None),
    (thin_stream, found(**signs(UrineSign.THIN_LONG_STREAM)), D),
    (thin_stream, found(**signs(UrineSign.THIN_LONG_STREAM) | {"kind": StomaKind.ILEOSTOMY}), None),
    *((thin_stream, found(sign, **signs(UrineSign.THIN_LONG_STREAM)), S) for sign in (
        Symptom.LOIN_PAIN, Symptom.ABDOMINAL_PAIN, Symptom.RISING_PAIN,
        Symptom.CONSTANT_SEVERE_PAIN)),
    (thin_stream, found(**signs(UrineSign.THIN_LONG_STREAM), pain_0_10=1), S),
    (urine_infection, found(**URO), None), (urine_infection, found(Symptom.FEVER), None),
    (urine_infection, found(Symptom.FEVER, **URO), E),
    (urine_infection, found(Symptom.RIGORS, **URO), E),
    (urine_infection, found(**URO, vitals=Vitals(37.9)), None),
    (urine_infection, found(**URO, vitals=Vitals(38.0)), E),
    (urine_infection, found(Symptom.LOIN_PAIN, **URO), S),
    (urine_infection, found(Symptom.LOIN_PAIN, Symptom.VOMITING, **URO), E),
    (urine_infection, found(Symptom.LOIN_PAIN, **URO | {"volume_ml_24h": None}), E),
    (urine_infection, found(Symptom.VOMITING, **URO), None),
    *((weak_with_urostomy, found(sign, **kind), urgency)
      for sign in (Symptom.LIMB_WEAKNESS, Symptom.PALPITATIONS)
      for kind, urgency in ((URO, E), ({}, None))),
    (weak_with_urostomy, found(**URO), None),
    *((unwell_with_urostomy, found(sign, **kind), urgency)
      for sign in (Symptom.NAUSEA, Symptom.VOMITING, Symptom.TIRED)
      for kind, urgency in ((URO, S), ({}, None))),
    (unwell_with_urostomy, found(**URO), None),
    (cloudy_urine, found(**signs(UrineSign.CLOUDY)), D), (cloudy_urine, found(**URO), None),
    (cloudy_urine, found(**signs(UrineSign.CLOUDY) | COLO), None),
    (blood_in_urine, found(**URO), None),
    (blood_in_urine, found(urine_signs=frozenset({UrineSign.BLOOD})), None),
    (blood_in_urine, found(**signs(UrineSign.PINK)), T),
    (blood_in_urine, found(**URO, **pouch(PouchBlood.ONCE)), T),
    (blood_in_urine, found(**URO, **pouch(PouchBlood.FOOD_COLOUR)), None),
    (blood_in_urine, found(**URO, **pouch(PouchBlood.SEVERAL_EMPTIES)), S),
    (blood_in_urine, found(**URO, **pouch(PouchBlood.CLOTS)), E),
    (blood_in_urine, found(**signs(UrineSign.BLOOD)), S),
    (blood_in_urine, found(**signs(UrineSign.CLOTS)), E),
    (blood_in_urine, found(**URO, **LUMEN), S),
    (blood_in_urine, found(**signs(UrineSign.PINK), person=THINNED), S),
    *((blood_in_urine, found(sign, **signs(UrineSign.PINK)), E) for sign in (
        Symptom.FAINTNESS, Symptom.DIZZY_ON_STANDING, Symptom.LITTLE_URINE)),
    (blood_in_urine, found(**signs(UrineSign.PINK), colour=Colour.PALE), E),
    (blood_in_urine, found(**signs(UrineSign.PINK), hours_without_output=2.0), E),
]  # fmt: skip

SOFT = (Symptom.THIRST, Symptom.DRY_MOUTH, Symptom.DARK_URINE, Symptom.TIRED)
NO_VOLUME: dict[str, Any] = {"volume_ml_24h": None}
OUTPUT: list[Row] = [
    (dehydrated, found(), None),
    (dehydrated, found(Symptom.THIRST), None),
    (watery, found(watery_for_hours=24.0), None), (watery, found(watery_for_hours=24.5), T),
    (watery, found(watery_for_hours=25.0, **URO), None), (watery, found(), None),
    (watery, found(Symptom.THIRST, watery_for_hours=25.0), T),
    (watery, found(Symptom.THIRST, Symptom.TIRED, watery_for_hours=25.0), S),
    (watery, found(Symptom.LIMB_CRAMPS, watery_for_hours=25.0), S),
    (unmeasured_signs, found(**NO_VOLUME), None),
    *((unmeasured_signs, found(sign, **NO_VOLUME), T) for sign in SOFT),
    (unmeasured_signs, found(*SOFT[:2], **NO_VOLUME), S),
    (unmeasured_signs, found(Symptom.THIRST, Symptom.LIMB_CRAMPS, **NO_VOLUME), S),
    (unmeasured_signs, found(Symptom.THIRST), None),
    (unmeasured_signs, found(Symptom.THIRST, **NO_VOLUME, consistency=Consistency.SOFT), None),
    (unmeasured_signs, found(Symptom.THIRST, **NO_VOLUME, consistency=Consistency.FORMED), None),
    (unmeasured_signs, found(Symptom.THIRST, **NO_VOLUME, **COLO), None),
    (unmeasured_signs, found(Symptom.THIRST, **NO_VOLUME, **COLO,
                             consistency=Consistency.WATERY), T),
    (risen, found(volume_ml_24h=900.0, usual_ml_24h=400.0), T),
    (risen, found(volume_ml_24h=900.0, usual_ml_24h=401.0), None),
    (risen, found(volume_ml_24h=900.0, usual_ml_24h=400.0, days_at_volume=1.9), None),
    (risen, found(volume_ml_24h=900.0, usual_ml_24h=400.0, days_at_volume=2.0), T),
    (risen, found(**URO | {"volume_ml_24h": 2500.0}, usual_ml_24h=400.0), None),
    (risen, found(volume_ml_24h=2500.0), None), (risen, found(**NO_VOLUME, usual_ml_24h=400.0),
                                                None),
]  # fmt: skip


@pytest.mark.parametrize(("judge", "today", "urgency"), [*BLOOD, *URINE, *OUTPUT])
def test_a_rule_alone(judge: Any, today: Findings, urgency: Urgency | None) -> None:
    assert level(judge, today) is urgency


LESS = (Symptom.LOIN_PAIN, Symptom.VOMITING, Symptom.LIMB_WEAKNESS, Symptom.SWOLLEN_ABDOMEN)
OPEN_PERSON = replace(KNOWN, has_not=frozenset(), medicines=None)


def bare(*felt: Symptom, **changes: Any) -> Findings:
    """Neither temperature nor pulse was taken, and fever was not asked."""
    today = found(*felt, open_=(Symptom.FEVER, *changes.pop("open_", ())), **changes)
    return replace(today, output=replace(today.output, vitals=Vitals()))


@pytest.mark.parametrize(
    ("judge", "today", "words"),
    [
        (no_urine, found(**URO, hours_without_output=2.0), ""),
        (no_urine, bare(**URO, hours_without_output=2.0, open_=LESS),
         "loin pain, vomiting, weak limbs, a swollen abdomen and temperature"),
        (no_urine, bare(**URO, hours_without_output=4.0, open_=LESS), ""),
        (little_urine, bare(**URO | {"volume_ml_24h": 399.0}), "temperature"),
        (little_urine, bare(**URO | {"volume_ml_24h": 0.0}), ""),
        (stent_out, found(**URO, stent_out_early=True), ""),
        (stent_out, found(**URO | NO_VOLUME, stent_out_early=True,
                          open_=(Symptom.LITTLE_URINE,)), "does less urine come than before"),
        (stent_out, found(**URO, stent_out_early=True, open_=(Symptom.LITTLE_URINE,)), ""),
        (stent_out, found(**URO | NO_VOLUME, stent_out_early=True), ""),
        (urine_infection, found(Symptom.LOIN_PAIN, **URO), ""),
        (urine_infection, bare(Symptom.LOIN_PAIN, **URO, open_=(Symptom.VOMITING,)),
         "fever, rigors and vomiting"),
        (blood_in_urine, found(**signs(UrineSign.PINK)), ""),
        (blood_in_urine, found(**signs(UrineSign.PINK), **pouch(None)),
         "are there clots, however small"),
        (blood_in_urine, found(Symptom.FAINTNESS, **signs(UrineSign.PINK), **pouch(None)), ""),
        (oozing, found(**OOZES), ""),
        (oozing, found(**OOZES, person=OPEN_PERSON), "an anticoagulant, liver disease"),
        (oozing, found(Symptom.PALE, **OOZES, person=OPEN_PERSON), ""),
    ],
)  # fmt: skip
def test_what_decides_is_asked(judge: Any, today: Findings, words: str) -> None:
    assert ask(judge, today) == words


# --- what is known ----------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("judge", "today", "kind", "usual"),
    [
        (veins, found(**VEINS), BaselineKind.VARICES, True),
        (veins, found(**VEINS, **WIPED), BaselineKind.VARICES, False),
        (contact, found(**WIPED, person=THINNED), BaselineKind.CONTACT_BLEEDING, True),
        (variceal, found(**WIPED, person=LIVER), BaselineKind.CONTACT_BLEEDING, True),
        (variceal, found(**WIPED, **VEINS), BaselineKind.CONTACT_BLEEDING, False),
        (variceal, found(**OOZES, person=LIVER), BaselineKind.CONTACT_BLEEDING, False),
        (blood_in_urine, found(**signs(UrineSign.PINK)), BaselineKind.PINK_URINE_OR_MUCUS, True),
        (blood_in_urine, found(**signs(UrineSign.BLOOD)), BaselineKind.PINK_URINE_OR_MUCUS, False),
        (cloudy_urine, found(**signs(UrineSign.CLOUDY)), BaselineKind.PINK_URINE_OR_MUCUS, True),
        (dehydrated, found(Symptom.CONFUSION), BaselineKind.CONFUSION, True),
        (dehydrated, found(Symptom.CONFUSION, Symptom.RIGORS), BaselineKind.CONFUSION, False),
    ],
)  # fmt: skip
def test_what_was_agreed_and_is_no_worse_is_no_news(
    judge: Any, today: Findings, kind: BaselineKind, usual: bool
) -> None:
    assert level(judge, today) is not None
    assert (level(judge, today, known(kind)) is None) is usual


def test_known_confusion_of_which_not_all_was_compared_is_seen_today() -> None:
    today = bare(Symptom.CONFUSION)
    history = known(BaselineKind.CONFUSION)
    assert level(dehydrated, today, history) is S
    assert "known, not compared in full" in said(dehydrated, today, history)
    assert level(dehydrated, today) is E
    assert "new confusion" in said(dehydrated, today)
    worse = bare(Symptom.CONFUSION, Symptom.RESTLESS)
    assert level(dehydrated, worse, history) is E


def test_a_trace_with_nothing_known_is_a_call_once_it_comes_again() -> None:
    def again(person: Any, before: Bleeding = Bleeding.ON_WIPING) -> Urgency | None:
        last = History(previous=(found(bleeding=before),))
        return level(contact, found(**WIPED, person=person), last)

    assert again(OPEN_PERSON) is T
    assert again(OPEN_PERSON, Bleeding.NONE) is None
    assert again(KNOWN) is None
    for condition in (Condition.LOW_PLATELETS, Condition.LIVER_DISEASE):
        one = replace(KNOWN, has_not=frozenset(Condition) - {condition})
        assert again(one) is T
    thinner = frozenset(Condition) - {Condition.ANTICOAGULANT}
    assert again(replace(KNOWN, medicines=None, has_not=thinner)) is T


@pytest.mark.parametrize(
    ("person", "before", "today", "urgency"),
    [
        (CANCER, signs(UrineSign.BLOOD), URO, W),
        (CANCER, {**URO, **pouch(PouchBlood.ONCE)}, URO, W),
        (CANCER, {**URO, **pouch(PouchBlood.SEVERAL_EMPTIES)}, URO, W),
        (CANCER, {**URO, **pouch(PouchBlood.FOOD_COLOUR)}, URO, None),
        (CANCER, {**URO, **LUMEN}, URO, W),
        (CANCER, URO, URO, None),
        (CANCER, {**URO, "urine_signs": None}, URO, None),
        (CANCER, None, URO, None),
        (KNOWN, signs(UrineSign.BLOOD), URO, None),
        (CANCER, signs(UrineSign.BLOOD), signs(UrineSign.BLOOD), None),
        (CANCER, signs(UrineSign.BLOOD), {**URO, **COLO}, None),
    ],
)
def test_blood_that_stopped_with_cancer_on_record(
    person: Any, before: dict[str, Any] | None, today: dict[str, Any], urgency: Urgency | None
) -> None:
    history = History(previous=() if before is None else (found(person=person, **before),))
    assert level(blood_stopped, found(person=person, **today), history) is urgency


# --- an agreed target -------------------------------------------------------------------------
TARGET: dict[str, Any] = {"value": 2000.0, "urine_low_ml_24h": 1000.0}


@pytest.mark.parametrize(
    ("changes", "urgency"),
    [
        ({"volume_ml_24h": 2499.0}, None),
        ({"volume_ml_24h": 2500.0}, S),
        ({"volume_ml_24h": 2500.0, "days_at_volume": 1.0}, T),
        ({"volume_ml_24h": 2500.0, "days_at_volume": 2.0}, S),
        ({"volume_ml_24h": 2500.0, "days_at_volume": 1.0, "urine_ml_24h": 999.0}, S),
        ({"volume_ml_24h": 1400.0, "urine_ml_24h": 999.0}, S),
        ({"volume_ml_24h": 1500.0, "open_": (Symptom.THIRST,)}, S),
        ({"volume_ml_24h": 1499.0, "open_": (Symptom.THIRST,)}, None),
        ({"volume_ml_24h": 2500.0, "days_at_volume": 1.0, "open_": (Symptom.THIRST,)}, S),
    ],
)
def test_against_an_agreed_target(changes: dict[str, Any], urgency: Urgency | None) -> None:
    today = found(**({"urine_ml_24h": 1200.0} | changes))
    history = known(BaselineKind.OUTPUT_TARGET, **TARGET)
    assert level(high_output, today, history) is urgency
    assert level(watery, replace(today, output=replace(today.output, watery_for_hours=30.0)),
                 history) is None  # fmt: skip
    assert level(risen, replace(today, output=replace(today.output, usual_ml_24h=100.0)),
                 history) is None  # fmt: skip
    raised = verdict(high_output, today, history)
    if raised is not None:
        assert ("Measure again tomorrow" in raised.also) is (raised.urgency is T)
        assert ("nutrition team, by telephone" in raised.refer_to) is (raised.urgency is T)


@pytest.mark.parametrize(("value", "agreed"), [(2000.0, "2000 mL"), (None, "no figure")])
def test_what_was_agreed_is_said(value: float | None, agreed: str) -> None:
    history = known(BaselineKind.OUTPUT_TARGET, value=value)
    today = found(Symptom.LIMB_CRAMPS, volume_ml_24h=2500.0)
    assert f"Output is 2500 mL in 24 hours; agreed: {agreed}." in said(high_output, today, history)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({}, "was blood taken today"),
        ({"blood_tests": BloodTests.NOT_TAKEN}, ""),
        ({"days_since_surgery": 42}, ""),
        ({"days_since_surgery": 43}, "was blood taken today"),
        ({"kind": StomaKind.JEJUNOSTOMY}, ""),
        ({"volume_ml_24h": 1999.0}, ""),
    ],
)
def test_whether_blood_was_taken_is_asked_where_it_could_lower_the_level(
    changes: dict[str, Any], words: str
) -> None:
    assert ask(high_output, found(**({"volume_ml_24h": 2000.0} | changes))) == words


def test_output_says_its_signs_its_risks_and_its_days() -> None:
    ill = found(Symptom.LIMB_CRAMPS, Symptom.THIRST, volume_ml_24h=1600.0, days_at_volume=1.0,
                blood_tests=BloodTests.TAKEN, person=replace(KNOWN, age_years=65))  # fmt: skip
    assert said(high_output, ill) == (
        "Output is 1600 mL in 24 hours; 1 day; with cramps in the limbs, thirst; at risk: age; "
        "blood was taken today."
    )
    assert said(watery, found(Symptom.THIRST, watery_for_hours=30.0)) == (
        "Output has been watery for 30 hours; thirst."
    )
    assert said(watery, found(watery_for_hours=30.0)) == "Output has been watery for 30 hours."
    raised = verdict(watery, found(watery_for_hours=30.0))
    assert raised is not None
    assert (raised.at, raised.refer_to) == (
        "output.watery_for_hours",
        "stoma team, by telephone",
    )


NOTED = having(Condition.ANTICOAGULANT)
PLATELETS = replace(KNOWN, medicines=frozenset({Medicine.ANTIPLATELET}))


@pytest.mark.parametrize(
    ("person", "words"),
    [
        (KNOWN, ""),
        (THINNED, "Name an anticoagulant to the person who looks after it; never stop it."),
        (NOTED, "Name an anticoagulant to the person who looks after it; never stop it."),
        (PLATELETS, "Name an antiplatelet to the person who looks after it; never stop it."),
        (OPEN_PERSON, "Ask for blood thinners."),
        (replace(KNOWN, medicines=None), "Ask for blood thinners."),
    ],
)
def test_a_bleed_names_what_thins_the_blood_or_asks_for_it(person: Any, words: str) -> None:
    assert medicines.bleeding(situation(found(person=person)).facts) == words


@pytest.mark.parametrize(
    ("person", "first"),
    [
        (KNOWN, False),
        (replace(KNOWN, medicines=frozenset({Medicine.ANTIBIOTIC})), True),
        (having(Condition.RECENT_ANTIBIOTICS), True),
    ],
)
def test_after_antibiotics_stool_is_tested_first(person: Any, first: bool) -> None:
    words = medicines.stool_test_first(situation(found(person=person)).facts)
    assert words.startswith("After antibiotics") if first else words == ""


def test_clots_in_the_urine_are_said() -> None:
    assert said(blood_in_urine, found(**signs(UrineSign.CLOTS))).endswith("with clots.")
    assert said(blood_in_urine, found(**signs(UrineSign.PINK))) == "There is blood in the urine."


@pytest.mark.parametrize(("person", "told"), [(KNOWN, False), (THINNED, True)])
def test_an_anticoagulant_is_said_beside_a_bleed_that_goes_on(person: Any, told: bool) -> None:
    assert ("An anticoagulant is taken." in said(oozing, found(**OOZES, person=person))) is told


@pytest.mark.parametrize(
    ("felt", "words", "whom"),
    [
        ((), "Ask for a target: none is on record.", "nutrition team, by telephone"),
        ((Symptom.LIMB_CRAMPS,), "Bloods: sodium", "physician"),
    ],
)
def test_a_jejunostomy_without_a_target(felt: tuple[Symptom, ...], words: str, whom: str) -> None:
    raised = verdict(high_output, found(*felt, kind=StomaKind.JEJUNOSTOMY, volume_ml_24h=1400.0))
    assert raised is not None
    assert raised.also.startswith(words)
    assert raised.refer_to == whom


@pytest.mark.parametrize(("volume", "raised"), [(700.0, None), (None, T)])
def test_a_target_says_more_than_watery_only_where_the_output_was_measured(
    volume: float | None, raised: Urgency | None
) -> None:
    today = found(volume_ml_24h=volume, watery_for_hours=30.0)
    assert level(watery, today, known(BaselineKind.OUTPUT_TARGET, value=2000.0)) is raised


@pytest.mark.parametrize(
    ("felt", "bloods", "whom"),
    [((), False, "stoma team, by telephone"), ((Symptom.LIMB_CRAMPS,), True, "physician")],
)
def test_what_is_done_for_watery_output(felt: tuple[Symptom, ...], bloods: bool, whom: str) -> None:
    raised = verdict(watery, found(*felt, watery_for_hours=30.0))
    assert raised is not None
    assert ("Bloods" in raised.also) is bloods
    assert raised.refer_to == whom
