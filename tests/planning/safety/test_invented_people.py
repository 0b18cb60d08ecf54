"""Whole invented people of fluid, blood, agreed baselines, children and old age: the urgency each
plan must have, and what it must and must not say. What is not named was asked and is usual."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import pytest

from planning import History, Plan, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Accessory,
    Baseline,
    BaselineKind,
    Bleeding,
    ChildSign,
    Colour,
    Condition,
    Consistency,
    Findings,
    Medicine,
    Person,
    PouchBlood,
    Profile,
    RemovalReason,
    SkinFinding,
    SkinKind,
    StomaKind,
    Symptom,
    UrineSign,
    Vitals,
    WearEpisode,
    Weighing,
)
from planning.results.plan import Urgency
from planning.results.snapshot import plan_to_dict
from tests.planning.builders import ALL, seen, well

E, S, T, D = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE, Urgency.DAYS
W, R = Urgency.TWO_WEEKS, Urgency.ROUTINE
URO, COLO = StomaKind.UROSTOMY, StomaKind.COLOSTOMY
NO_BLEEDING_RISK = frozenset(
    {Condition.LIVER_DISEASE, Condition.ANTICOAGULANT, Condition.LOW_PLATELETS}
)


def someone(
    age: int,
    *,
    has: frozenset[Condition] = frozenset(),
    medicines: tuple[Medicine, ...] = (),
    kg: float | None = None,
    signs: tuple[ChildSign, ...] = (),
) -> Person:
    """Illnesses, medicines and, in a child, signs that are not named were asked and are absent."""
    there = frozenset(signs)
    return Person(
        sensitivities=frozenset(),
        has=has,
        has_not=frozenset(Condition) - has,
        age_years=age,
        medicines=frozenset(medicines),
        weight_kg=kg,
        child_present=there,
        child_absent=frozenset(ChildSign) - there,
    )


def found(person: Person, *present: Symptom, **changes: Any) -> Findings:
    felt = frozenset(present)
    usual: dict[str, Any] = {
        "person": person,
        "present": felt,
        "absent": frozenset(Symptom) - felt,
        "volume_ml_24h": None,
        "vitals": Vitals(temperature_c=36.8, pulse=76.0, breaths=14.0, systolic_mmhg=128.0),
        "urine_signs": frozenset(),
        "hours_without_output": 0.0,
        "pain_0_10": 0,
    }
    return well(**(usual | changes))


@dataclass(frozen=True)
class Someone:
    """``says``: words of the plan; ``never``: words it must not hold."""

    name: str
    findings: Findings
    urgency: Urgency
    history: History = field(default_factory=History)
    says: tuple[str, ...] = ()
    never: tuple[str, ...] = ()
    flags: frozenset[str] | None = field(default=None)


def agreed(kind: BaselineKind, value: float | None = None, **how: Any) -> Baseline:
    return Baseline(kind, "stoma team", value, review_in_days=90.0, **how)


BLUE = SkinFinding(SkinKind.DILATED_VEINS, ALL, 0.0, 12.0)
LOGGED = tuple(WearEpisode(1.5, RemovalReason.PLANNED) for _ in range(12))

PEOPLE = (
    Someone(
        "a dry urostomy pouch without pain",
        found(someone(69), Symptom.NAUSEA, kind=URO, hours_without_output=5.0),
        E,
        says=("No urine for 5 hours", "Look once for a kink", "Kidney function"),
    ),
    Someone(
        "red urine with small clots under an anticoagulant",
        found(
            someone(78, has=frozenset({Condition.CANCER, Condition.ANTICOAGULANT}),
                    medicines=(Medicine.ANTICOAGULANT,)),
            kind=URO, volume_ml_24h=1300.0,
            urine_signs=frozenset({UrineSign.BLOOD, UrineSign.CLOTS}),
        ),
        E,
        says=("Name an anticoagulant to the person who looks after it; never stop it",
              "urology within two weeks even if it stops"),
        flags=frozenset({"blood_in_urine"}),
    ),
    Someone(
        "dry without an output figure",
        found(
            someone(71, medicines=(Medicine.DIURETIC, Medicine.ACE_INHIBITOR_OR_ARB), kg=64.6),
            Symptom.THIRST, Symptom.DARK_URINE, Symptom.LIMB_CRAMPS, Symptom.DIZZY_ON_STANDING,
            days_since_surgery=17,
        ),
        E,
        History(weighings=(Weighing(4, 68.0),)),
        says=("3.4 kg lost", "magnesium, creatinine", "lying and standing",
              "a diuretic and an ACE inhibitor or ARB", "no recipe and no amount"),
    ),
    Someone(
        "1.65 litres after a laxative and an antacid",
        found(
            someone(57, medicines=(Medicine.LAXATIVE, Medicine.MAGNESIUM_ANTACID)), Symptom.THIRST,
            volume_ml_24h=1650.0, days_at_volume=2.0, usual_ml_24h=750.0, urine_ml_24h=1000.0,
            consistency=Consistency.WATERY, days_since_surgery=150,
        ),
        S,
        says=("a laxative and a magnesium antacid", "magnesium, creatinine",
              "infection and of a partial blockage", "Rehydration drink in sips"),
        never=("loperamide",),
    ),
    Someone(
        "whole tablets in the pouch",
        found(
            someone(63, has=frozenset({Condition.SHORT_BOWEL}),
                    medicines=(Medicine.COATED_OR_SLOW_RELEASE, Medicine.STEROID)),
            volume_ml_24h=1300.0, usual_ml_24h=1300.0, urine_ml_24h=1200.0, tablets_whole=True,
            days_since_surgery=700,
        ),
        D,
        History(baselines=(agreed(BaselineKind.OUTPUT_TARGET, 1300.0),)),
        says=("pharmacist", "keep a tablet to show", "emergency if faint, vomiting or very weak"),
        flags=frozenset({"tablets_whole"}),
    ),
    Someone(
        "blood from inside under two antiplatelets",
        found(
            someone(74, medicines=(Medicine.ANTIPLATELET,)), Symptom.TIRED, kind=COLO,
            pouch_blood=PouchBlood.SEVERAL_EMPTIES, vitals=Vitals(36.8, pulse=92.0),
            days_since_surgery=1000,
        ),
        S,
        says=("an antiplatelet to the person who", "Blood count", "say where the blood comes from"),
    ),
    Someone(
        "liver disease, blood that runs",
        found(
            someone(60, has=frozenset({Condition.LIVER_DISEASE})), Symptom.DIZZY_ON_STANDING,
            bleeding=Bleeding.OOZE_AT_JUNCTION, colour=Colour.PALE, profile=Profile.CONVEX,
        ),
        E,
        says=("liver disease, possible stomal varices", "Press firmly"),
    ),
    Someone(
        "a blue ring under convexity and a belt",
        found(
            someone(57, has=frozenset({Condition.LIVER_DISEASE})), skin=(BLUE,),
            volume_ml_24h=700.0, profile=Profile.CONVEX,
            accessories=frozenset({Accessory.BELT}),
        ),
        D,
        says=("liver specialist and surgeon", "what to do when it bleeds"),
    ),
    Someone(
        "the same ring, agreed as known",
        found(
            someone(57, has=frozenset({Condition.LIVER_DISEASE})), skin=(BLUE,),
            volume_ml_24h=700.0,
        ),
        R,
        History(baselines=(agreed(BaselineKind.VARICES),)),
        says=("dilated veins): as known",),
    ),
    Someone(
        "a jejunostomy on its target",
        found(
            someone(46), kind=StomaKind.JEJUNOSTOMY, volume_ml_24h=2400.0, urine_ml_24h=1300.0,
            days_since_surgery=1100,
        ),
        R,
        History(baselines=(agreed(BaselineKind.OUTPUT_TARGET, 2500.0),)),
        says=("output target, 2500 mL/24 h",),
        flags=frozenset(),
    ),
    Someone(
        "the same, weighed",
        found(
            someone(46, kg=60.0), kind=StomaKind.JEJUNOSTOMY, volume_ml_24h=2400.0,
            urine_ml_24h=1300.0, days_since_surgery=1100,
        ),
        R,
        History(baselines=(agreed(BaselineKind.OUTPUT_TARGET, 2500.0),),
                weighings=(Weighing(30, 60.5),)),
        says=("output target, 2500 mL/24 h): as known",),
    ),
    Someone(
        "liver disease without veins",
        found(someone(55, has=frozenset({Condition.LIVER_DISEASE})), volume_ml_24h=650.0),
        R,
        History(baselines=(agreed(BaselineKind.LIVER_DISEASE),)),
        says=("liver disease without dilated veins): as known", "look for varices"),
    ),
    Someone(
        "drops on wiping under an anticoagulant",
        found(
            someone(69, has=frozenset({Condition.ANTICOAGULANT}),
                    medicines=(Medicine.ANTICOAGULANT,)),
            bleeding=Bleeding.ON_WIPING, volume_ml_24h=700.0,
        ),
        T,
        says=("by telephone", "No wider opening for it, no visit"),
        never=("a little blood",),
        flags=frozenset({"contact_on_anticoagulant"}),
    ),
    Someone(
        "the same drops, told and unchanged",
        found(
            someone(69, has=frozenset({Condition.ANTICOAGULANT}),
                    medicines=(Medicine.ANTICOAGULANT,)),
            bleeding=Bleeding.ON_WIPING, volume_ml_24h=700.0,
        ),
        R,
        History(baselines=(agreed(BaselineKind.CONTACT_BLEEDING),)),
        says=("drops of blood on wiping): as known",),
        flags=frozenset(),
    ),
    Someone(
        "a preterm baby, 48 mL/kg",
        found(
            someone(0, kg=1.9, signs=(ChildSign.FEWER_WET_NAPPIES,
                                      ChildSign.SUNKEN_EYES_OR_FONTANELLE)),
            volume_ml_24h=91.0, days_since_surgery=9,
        ),
        E,
        History(weighings=(Weighing(2, 1.96),)),
        says=("47.9 mL/kg", "paediatric surgical team", "Urine sodium", "Preterm"),
        never=("1000", "1200", "1500"),
    ),
    Someone(
        "an infant, 24 mL/kg, hardly gaining",
        found(
            someone(0, kg=5.2, signs=(ChildSign.NOT_GAINING,)),
            volume_ml_24h=125.0, days_at_volume=3.0, days_since_surgery=70,
            skin=(seen(SkinKind.ERYTHEMA, ClockHours.arc(5, 7), outer_mm=6.0),),
        ),
        S,
        History(weighings=(Weighing(14, 5.17),)),
        says=("24.0 mL/kg", "urine sodium and feeds", "Feeds and salt are theirs to change"),
    ),
    Someone(
        "a thriving toddler",
        found(
            someone(2, kg=12.5), kind=COLO, consistency=Consistency.SOFT, days_since_surgery=500,
            wear=LOGGED,
        ),
        R,
        says=("All is well: keep everything as it is", "no adult wear time", "Praise the parents"),
        flags=frozenset(),
    ),
    Someone(
        "dementia, newly restless, otherwise usual",
        found(
            someone(84, has=frozenset({Condition.DEMENTIA})), Symptom.RESTLESS,
            volume_ml_24h=600.0, vitals=Vitals(36.8, pulse=78.0), days_since_surgery=4000,
        ),
        D,
        says=("sore or itching skin, pain, new carers, infection", "No sedation"),
    ),
    Someone(
        "grit in a urostomy under an anticoagulant",
        found(
            someone(68, has=frozenset({Condition.ANTICOAGULANT})), kind=URO, volume_ml_24h=1700.0,
            urine_signs=frozenset({UrineSign.CRYSTALS}), urine_ph=8.0,
        ),
        R,
        says=("Cranberry never with warfarin.",),
        flags=frozenset(),
    ),
    Someone(
        "thick stool under iron, no pain",
        found(
            someone(56, medicines=(Medicine.IRON,)), Symptom.THICK_STICKING_STOOL, kind=COLO,
            consistency=Consistency.FORMED, days_since_surgery=210,
        ),
        R,
        says=("iron, which can thicken or stop stool",),
        flags=frozenset(),
    ),
)  # fmt: skip


def all_words(plan: Plan) -> str:
    return str(plan_to_dict(plan))


@pytest.mark.parametrize("one", PEOPLE, ids=lambda one: one.name)
def test_a_person_gets_the_urgency_and_the_words(one: Someone) -> None:
    plan = recommend(one.findings, one.history)
    assert plan.urgency is one.urgency, [(f.key, f.urgency) for f in plan.red_flags]
    words = all_words(plan)
    for said in one.says:
        assert said in words
    for said in one.never:
        assert said not in words
    if one.flags is not None:
        assert {flag.key for flag in plan.red_flags} == one.flags


def test_a_thriving_child_is_looked_at_again_in_weeks() -> None:
    toddler = next(one for one in PEOPLE if "thriving" in one.name)
    plan = recommend(toddler.findings)
    assert plan.follow_up.in_days == 91
    assert not plan.leave_alone
    younger = found(someone(1, kg=9.0), kind=COLO, consistency=Consistency.SOFT, wear=LOGGED)
    assert recommend(younger).follow_up.in_days == 30
    baby = found(someone(0, kg=6.0), kind=COLO, consistency=Consistency.SOFT, wear=LOGGED)
    assert recommend(baby).follow_up.in_days == 7


@pytest.mark.parametrize("lack", ["weight", "growth", "output", "log"])
def test_without_weight_growth_or_output_nobody_says_keep(lack: str) -> None:
    toddler = next(one for one in PEOPLE if "thriving" in one.name).findings
    person = someone(2, kg=None if lack == "weight" else 12.5)
    changes: dict[str, Any] = {"kind": COLO, "consistency": Consistency.SOFT, "wear": LOGGED}
    if lack == "growth":
        person = Person(sensitivities=frozenset(), has_not=person.has_not, age_years=2,
                        medicines=frozenset(), weight_kg=12.5)  # fmt: skip
    if lack == "output":
        changes["consistency"] = Consistency.LIQUID
    if lack == "log":
        changes |= {"wear": None, "leak": None, "erosion": None}
    assert "All is well" in recommend(toddler).headline
    assert "All is well" not in recommend(found(person, **changes)).headline
