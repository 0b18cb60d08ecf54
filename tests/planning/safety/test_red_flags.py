"""Every row of the table of red flags, either side of each limit."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Accessory,
    Bleeding,
    Bulge,
    Calibre,
    Colour,
    Condition,
    Discharge,
    Findings,
    Medicine,
    Person,
    PouchBlood,
    Profile,
    Prolapse,
    RemovalReason,
    Separation,
    SkinKind,
    StomaKind,
    Symptom,
    Turgor,
    UrineSign,
    Vitals,
    WearEpisode,
    Wound,
)
from planning.results.plan import Urgency
from planning.safety.flags_colour import lifeless
from planning.safety.flags_fever import early_leak
from planning.safety.red_flags import RULES
from tests.planning.builders import ALL, LOW, raw, seen, situation, well

E, S, D, W = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.DAYS, Urgency.TWO_WEEKS
T = Urgency.TELEPHONE
COLO, URO = {"kind": StomaKind.COLOSTOMY}, {"kind": StomaKind.UROSTOMY}
LIVER = Person(has=frozenset({Condition.LIVER_DISEASE}))
IBD = Person(has=frozenset({Condition.INFLAMMATORY_BOWEL_DISEASE}))
THINNER = Person(has=frozenset({Condition.ANTICOAGULANT}))
WEAK = Person(has=frozenset({Condition.IMMUNOSUPPRESSED}))
BLOOD = frozenset({UrineSign.BLOOD})
RAYS = Person(has=frozenset({Condition.RADIOTHERAPY_ABDOMEN}))


def taking(*medicines: Medicine) -> Person:
    return Person(medicines=frozenset(medicines))


KIDNEY_DRUGS = taking(Medicine.DIURETIC, Medicine.ACE_INHIBITOR_OR_ARB)


def feels(*symptoms: Symptom) -> dict[str, Any]:
    return {"present": frozenset(symptoms)}


def prolapse(**how: Any) -> dict[str, Any]:
    return {"prolapse": (Prolapse(**({"reducible": True, "painful": False} | how)),)}


def bulge(**how: Any) -> dict[str, Any]:
    return {"bulges": (Bulge(ClockHours.of(3), **how),)}


def gap(hours: ClockHours = LOW, **how: Any) -> dict[str, Any]:
    return {"junction": (Separation(hours, **how),)}


GAP = ClockHours.of(4, 5, 6)
FREE = (Wound(ClockHours.of(3), comes_free=True),)
EXPECTING = Person(sensitivities=frozenset(), has=frozenset({Condition.PREGNANT}))
WEALS = {"skin": (seen(SkinKind.WEAL),)}
WITH_WEALS = frozenset({Symptom.FACE_SWELLING_OR_WHEEZE, Symptom.FAINTNESS})
AGREED_DARK = {"colour": Colour.BLACK_BROWN_GREY, "colour_known": True, "bleeds_on_touch": True}
DECISIVE = frozenset({Symptom.SEVERE_CRAMPS, Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN})
DAY_10 = {"days_since_surgery": 10}
SOILED = Wound(ClockHours.of(3), effluent_reaches=True)


def cramps(*beside: Symptom) -> dict[str, Any]:
    """Mild, while output comes."""
    return {**feels(Symptom.MILD_CRAMPS, *beside), "hours_without_output": 0.0}


def spread(**how: Any) -> dict[str, Any]:
    return {"skin": (seen(SkinKind.SPREADING_WARMTH, **how),)}


LEAKS = {"wear": tuple(WearEpisode(0.5, RemovalReason.LEAK) for _ in range(4))}
FEW_LEAKS = {"wear": tuple(WearEpisode(1.0, RemovalReason.LEAK) for _ in range(4))}

ROWS: list[tuple[str, dict[str, Any], Urgency | None]] = [
    # 1, 2: dark stoma
    ("necrosis", {"colour": Colour.BLACK_BROWN_GREY}, E),
    ("necrosis", {"colour": Colour.PURPLE, "turgor": Turgor.COLD}, E),
    ("necrosis", AGREED_DARK, None),
    ("necrosis", {**AGREED_DARK, **feels(Symptom.ABDOMINAL_PAIN)}, E),
    ("necrosis", {**AGREED_DARK, "pain_0_10": 1}, E),
    ("necrosis", {"colour": Colour.PURPLE, "turgor": Turgor.MOIST_SOFT}, None),
    ("dusky", {"colour": Colour.DUSKY}, S),
    ("dusky", {"colour": Colour.DUSKY, "pain_0_10": 3}, E),
    ("dusky", {"colour": Colour.DUSKY, "days_since_surgery": 7}, E),
    ("dusky", {"colour": Colour.DUSKY, "days_since_surgery": 30}, E),
    ("dusky", {"colour": Colour.DUSKY, "days_since_surgery": 31}, S),
    ("dusky", {"colour": Colour.DUSKY, "turgor": None}, E),
    ("lifeless", {"turgor": Turgor.DRY}, S),
    ("lifeless", {"turgor": Turgor.MOIST_SOFT}, None),
    ("slough", {"colour": Colour.YELLOW_SLOUGH}, D),
    ("slough", {"colour": Colour.PINK_RED}, None),
    ("sunken", {"protrusion_mm": -5.0, "days_since_surgery": 30}, S),
    ("sunken", {"protrusion_mm": -4.5, "days_since_surgery": 30}, None),
    ("sunken", {"protrusion_mm": -5.0, "days_since_surgery": 31}, None),
    ("sunken", {"protrusion_mm": -19.9, "days_since_surgery": 30}, S),
    ("sunken", {"protrusion_mm": -20.0, "days_since_surgery": 30}, E),
    ("unseen", {"colour": None, "days_since_surgery": 7}, S),
    ("unseen", {"colour": None, "days_since_surgery": 8}, None),
    ("dusky", {"colour": Colour.PINK_RED}, None),
    # 3: pale
    ("pale", {"colour": Colour.PALE}, S),
    ("pale", {"colour": Colour.PALE, "bleeding": Bleeding.FROM_LUMEN}, E),
    ("pale", {"colour": Colour.PALE, **feels(Symptom.FAINTNESS)}, E),
    # 4, 5, 6: bleeding
    ("spurting", {"bleeding": Bleeding.SPURTING_OR_UNSTOPPED}, E),
    ("spurting", {"bleeding": Bleeding.ON_WIPING}, None),
    ("variceal_bleed", {"bleeding": Bleeding.OOZE_AT_JUNCTION, "person": LIVER}, E),
    ("variceal_bleed", {"bleeding": Bleeding.ON_WIPING, "person": LIVER}, T),
    ("variceal_bleed", {"bleeding": Bleeding.NONE, "person": LIVER}, None),
    ("variceal_bleed", {"bleeding": Bleeding.OOZE_AT_JUNCTION}, None),
    ("blood_in_output", {"bleeding": Bleeding.SEVERAL_EMPTIES}, S),
    ("blood_in_output", {"bleeding": Bleeding.FROM_LUMEN, "person": THINNER}, E),
    ("blood_in_output", {"bleeding": Bleeding.FROM_LUMEN, **feels(Symptom.PALE)}, E),
    ("blood_in_output", {"bleeding": Bleeding.FROM_LUMEN, **feels(Symptom.TIRED)}, S),
    ("oozing", {"bleeding": Bleeding.OOZE_AT_JUNCTION}, S),
    ("oozing", {"bleeding": Bleeding.OOZE_AT_JUNCTION, "person": THINNER}, E),
    ("oozing", {"bleeding": Bleeding.OOZE_AT_JUNCTION, "person": LIVER}, None),
    ("contact_on_anticoagulant", {"bleeding": Bleeding.ON_WIPING, "person": THINNER}, T),
    ("contact_on_anticoagulant", {"bleeding": Bleeding.ON_WIPING}, None),
    ("blood_in_output", {"pouch_blood": PouchBlood.ONCE}, S),
    ("blood_in_output", {"pouch_blood": PouchBlood.CLOTS}, E),
    ("blood_in_output", {"pouch_blood": PouchBlood.FOOD_COLOUR}, None),
    ("red_food", {"pouch_blood": PouchBlood.FOOD_COLOUR}, None),
    ("red_food", {"pouch_blood": PouchBlood.FOOD_COLOUR, "bleeding": None}, S),
    ("red_food", {"pouch_blood": PouchBlood.FOOD_COLOUR, **feels(Symptom.FAINTNESS)}, E),
    ("bleed_stopped", {"bleeding_stopped_days": 14.0}, S),
    ("bleed_stopped", {"bleeding_stopped_days": 15.0}, None),
    # 7: prolapse
    ("prolapse_trapped", prolapse(), None),
    ("prolapse_unasked", prolapse(), None),
    ("prolapse_unasked", prolapse(painful=None), S),
    ("prolapse_unasked", prolapse(reducible=None), S),
    ("prolapse_trapped", prolapse(reducible=False), S),
    ("prolapse_trapped", prolapse(reducible=False, painful=True), E),
    ("prolapse_trapped", prolapse(painful=True), E),
    ("prolapse_trapped", {**prolapse(), "colour": Colour.DUSKY}, E),
    ("prolapse_trapped", {**prolapse(), "turgor": Turgor.HARD}, E),
    # 8: hernia
    ("hernia_trapped", bulge(reducible=False, painful=True), E),
    ("hernia_trapped", {**bulge(painful=True), **feels(Symptom.VOMITING)}, E),
    ("hernia_trapped", bulge(painful=True), E),
    ("hernia_trapped", bulge(reducible=True, painful=True), S),
    ("hernia_trapped", bulge(reducible=True, painful=False), None),
    ("hernia_trapped", bulge(reducible=False, painful=False), S),
    ("hernia_trapped", {**bulge(reducible=True), "hours_without_output": 4.0}, E),
    ("hernia_trapped", {**bulge(reducible=True), "hours_without_output": 3.9}, None),
    # 9, 10: ileostomy
    ("blocked_ileostomy", {"hours_without_output": 4.0, **feels(Symptom.SEVERE_CRAMPS)}, E),
    ("blocked_ileostomy", {"hours_without_output": 3.9, **feels(Symptom.SEVERE_CRAMPS)}, S),
    ("blocked_ileostomy", {"hours_without_output": 23.9}, S),
    ("blocked_ileostomy", {"hours_without_output": 24.0}, E),
    ("blocked_ileostomy", {"hours_without_output": 4.0, **feels(Symptom.NAUSEA)}, S),
    ("blocked_ileostomy", {"hours_without_output": 5.9}, None),
    ("blocked_ileostomy", {"hours_without_output": 6.0}, S),
    # 11: colostomy
    ("blocked_colostomy", {**COLO, "hours_without_output": 24.0, **feels(Symptom.VOMITING)}, E),
    ("blocked_colostomy", {**COLO, "hours_without_output": 23.0, **feels(Symptom.VOMITING)}, S),
    ("blocked_colostomy", {**COLO, "hours_without_output": 23.0, **feels(Symptom.NAUSEA)}, D),
    ("blocked_beside_urostomy", {**URO, **feels(Symptom.SWOLLEN_ABDOMEN)}, S),
    ("blocked_beside_urostomy", {**URO, "hours_without_output": 24.0}, None),
    ("blocked_colostomy", {**COLO, "hours_without_output": 72.0}, S),
    ("blocked_colostomy", {**COLO, "hours_without_output": 71.0}, None),
    # 12, 13, 14: urostomy
    ("no_urine", {**URO, "hours_without_output": 4.0}, E),
    ("no_urine", {**URO, "hours_without_output": 2.0}, S),
    ("no_urine", {**URO, "hours_without_output": 1.9}, None),
    ("no_urine", {**URO, "hours_without_output": 2.0, **feels(Symptom.LOIN_PAIN)}, E),
    ("urine_infection", {**URO, **feels(Symptom.FEVER)}, E),
    ("urine_infection", feels(Symptom.FEVER), None),
    ("little_urine", {**URO, "volume_ml_24h": 399.0}, S),
    ("little_urine", {**URO, "volume_ml_24h": 400.0}, None),
    ("little_urine", {**URO, "volume_ml_24h": 0.0}, E),
    ("little_urine", {"volume_ml_24h": 0.0}, None),
    ("blood_in_urine", {**URO, "urine_signs": BLOOD}, S),
    ("blood_in_urine", {**URO, "urine_signs": BLOOD, **feels(Symptom.FAINTNESS)}, E),
    ("blood_in_urine", {**URO, "urine_signs": frozenset()}, None),
    ("blood_in_urine", {**URO, "urine_signs": frozenset({UrineSign.CLOTS})}, E),
    ("blood_in_urine", {**URO, "urine_signs": frozenset({UrineSign.PINK})}, S),
    ("blood_in_urine", {**URO, "urine_signs": BLOOD, **feels(Symptom.LITTLE_URINE)}, E),
    ("weak_with_urostomy", {**URO, **feels(Symptom.PALPITATIONS)}, E),
    ("weak_with_urostomy", feels(Symptom.PALPITATIONS), None),
    ("stent_out", {**URO, "stent_out_early": True}, S),
    ("stent_out", {**URO, "stent_out_early": True, **feels(Symptom.LITTLE_URINE)}, E),
    ("stent_out", {**URO, "stent_out_early": False}, None),
    ("thin_stream", {**URO, "urine_signs": frozenset({UrineSign.THIN_LONG_STREAM})}, D),
    ("thin_stream", {**URO, "urine_signs": frozenset({UrineSign.CLOUDY})}, None),
    ("cloudy_urine", {**URO, "urine_signs": frozenset({UrineSign.CLOUDY})}, D),
    ("unwell_with_urostomy", {**URO, **feels(Symptom.TIRED)}, S),
    ("unwell_with_urostomy", {**URO, **feels(Symptom.NAUSEA)}, S),
    ("unwell_with_urostomy", feels(Symptom.NAUSEA), None),
    # fever, pain
    ("fever", feels(Symptom.FEVER), S),
    ("fever", {**feels(Symptom.FEVER), "days_since_surgery": 30}, None),
    ("fever_after_surgery", {**feels(Symptom.FEVER), "days_since_surgery": 30}, S),
    ("fever_after_surgery", {**feels(Symptom.FEVER), "days_since_surgery": 31}, None),
    ("fever_weak_defences", {**feels(Symptom.FEVER), "person": WEAK}, E),
    ("fever_weak_defences", {"person": WEAK}, None),
    ("pain", {"pain_0_10": 3}, None),
    ("pain", {"pain_0_10": 4}, D),
    ("pain", {"pain_0_10": 6}, D),
    ("pain", {"pain_0_10": 7}, S),
    ("pain", {"pain_0_10": 6, "skin": (raw(),)}, None),
    ("pain", {"pain_0_10": 7, "skin": (raw(),)}, D),
    ("loin_pain", feels(Symptom.LOIN_PAIN), D),
    ("loin_pain", {**URO, **feels(Symptom.LOIN_PAIN)}, None),
    # 15, 16, 17: high output
    ("high_output", {"volume_ml_24h": 999.0}, None),
    ("high_output", {"volume_ml_24h": 1000.0}, T),
    ("high_output", {"volume_ml_24h": 1499.0}, T),
    ("high_output", {"volume_ml_24h": 1500.0}, S),
    ("high_output", {"volume_ml_24h": 1999.0}, S),
    ("high_output", {"volume_ml_24h": 2000.0}, E),
    ("high_output", {"volume_ml_24h": 1500.0, **feels(Symptom.LITTLE_URINE)}, E),
    ("high_output", {**URO, "volume_ml_24h": 2400.0}, None),
    ("watery", {"watery_for_hours": 24.0}, None),
    ("watery", {"watery_for_hours": 25.0}, T),
    ("unmeasured_output", {"volume_ml_24h": None, **feels(Symptom.THIRST)}, T),
    ("unmeasured_output",
     {"volume_ml_24h": None, **feels(Symptom.THIRST, Symptom.DARK_URINE)}, S),
    ("unmeasured_output", feels(Symptom.THIRST), None),
    ("output_risen", {"volume_ml_24h": 900.0, "usual_ml_24h": 400.0}, T),
    ("output_risen", {"volume_ml_24h": 899.0, "usual_ml_24h": 400.0}, None),
    # medicines already taken
    ("drug_with_losses", {"volume_ml_24h": 1500.0, "person": KIDNEY_DRUGS}, S),
    ("drug_with_losses", {"volume_ml_24h": 1499.0, "person": KIDNEY_DRUGS}, None),
    ("drug_with_losses", {"person": KIDNEY_DRUGS, **feels(Symptom.DIZZY_ON_STANDING)}, S),
    ("laxative_with_ileostomy", {"person": taking(Medicine.LAXATIVE)}, D),
    ("laxative_with_ileostomy", {**COLO, "person": taking(Medicine.LAXATIVE)}, None),
    ("tablets_whole", {"tablets_whole": True}, D),
    ("tablets_whole", {"tablets_whole": False}, None),
    ("nicorandil",
     {"skin": (seen(SkinKind.ULCER),), "person": taking(Medicine.NICORANDIL)}, D),
    ("nicorandil", {"person": taking(Medicine.NICORANDIL)}, None),
    ("restless", feels(Symptom.RESTLESS), S),
    ("blocked_ileostomy", {**cramps(Symptom.BLOCKING_FOOD), "absent": DECISIVE}, S),
    ("blocked_ileostomy", {**cramps(), "absent": DECISIVE}, T),
    ("drowsy", feels(Symptom.DROWSY), S),
    ("drowsy", feels(Symptom.TIRED), None),
    # weals: the skin alone, or the whole body
    ("anaphylaxis", {**WEALS, **feels(Symptom.FAINTNESS)}, E),
    ("anaphylaxis", feels(Symptom.FAINTNESS), None),
    ("anaphylaxis", WEALS, None),
    ("weals_unasked", WEALS, S),
    ("weals_unasked", {**WEALS, "absent": WITH_WEALS}, None),
    ("weals_unasked", {**WEALS, **feels(Symptom.FAINTNESS)}, None),
    # lowish blood pressure beside another sign
    ("sepsis", {"vitals": Vitals(systolic_mmhg=100.0)}, None),
    ("sepsis", {"vitals": Vitals(systolic_mmhg=100.0), **feels(Symptom.DIZZY_ON_STANDING)}, E),
    ("sepsis", {"vitals": Vitals(systolic_mmhg=101.0), **feels(Symptom.DIZZY_ON_STANDING)}, None),
    ("sepsis", {"vitals": Vitals(systolic_mmhg=100.0), "bleeding": Bleeding.FROM_LUMEN}, E),
    ("sepsis", {"vitals": Vitals(systolic_mmhg=100.0), "bleeding": Bleeding.ON_WIPING}, None),
    # the pain of the place counts as much as that of the stoma
    ("necrotising", spread(pain_0_10=7, hours_to_spread=12.0), E),
    ("necrotising", spread(pain_0_10=6, hours_to_spread=12.0), None),
    ("pyoderma", {"skin": (seen(SkinKind.ULCER, pain_0_10=7),)}, D),
    ("pyoderma", {"skin": (seen(SkinKind.ULCER, pain_0_10=6),)}, None),
    # two signs soon after surgery
    ("early_leak", {**DAY_10, **COLO, **feels(Symptom.FEVER, Symptom.NO_GAS)}, E),
    ("early_leak", {**DAY_10, **COLO, **feels(Symptom.FEVER), "hours_without_output": 71.0}, None),
    ("early_leak", {**DAY_10, **COLO, **feels(Symptom.FEVER), "hours_without_output": 72.0}, E),
    ("early_leak", {**DAY_10, **feels(Symptom.FEVER), "hours_without_output": 12.0}, E),
    ("early_leak", {**DAY_10, **feels(Symptom.FEVER), "hours_without_output": 11.0}, None),
    # stool in a wound, from where is not known
    ("wound_leaks", {**DAY_10, "wounds": (SOILED,)}, S),
    ("wound_leaks", {**DAY_10, "wounds": (replace(SOILED, comes_free=False),)}, None),
    ("wound_leaks", {"days_since_surgery": 31, "wounds": (SOILED,)}, None),
    # 18: dehydration
    ("dehydration", feels(Symptom.DIZZY_ON_STANDING), S),
    ("dehydration", feels(Symptom.LITTLE_URINE), S),
    ("dehydration", feels(Symptom.LIMB_CRAMPS), S),
    ("dehydration", feels(Symptom.LIMB_CRAMPS, Symptom.LITTLE_URINE), E),
    ("dehydration", feels(Symptom.PALPITATIONS), E),
    ("dehydration", feels(Symptom.LIMB_WEAKNESS), E),
    ("dehydration", feels(Symptom.CANNOT_KEEP_FLUIDS), E),
    ("dehydration", feels(Symptom.CONFUSION), E),
    ("dehydration", feels(Symptom.NAUSEA), None),
    # 19: separation
    ("separation_deep", gap(ALL), S),
    ("separation_deep", gap(base_visible=False), S),
    ("separation_deep", {**gap(effluent_under_skin=True), **feels(Symptom.FEVER)}, E),
    ("separation_deep", gap(base_visible=True), None),
    ("separation_deep", gap(depth_mm=20.0), None),
    ("separation_deep", gap(depth_mm=20.5), S),
    ("separation_deep", {**gap(base_visible=True), "days_since_surgery": 30}, S),
    ("separation", gap(base_visible=True), D),
    # 20: pyoderma
    ("pyoderma", {"skin": (seen(SkinKind.UNDERMINED_ULCER),)}, D),
    ("pyoderma", {"skin": (seen(SkinKind.UNDERMINED_ULCER, enlarging=True),)}, S),
    ("pyoderma", {"skin": (seen(SkinKind.ULCER),)}, None),
    ("pyoderma", {"skin": (seen(SkinKind.ULCER),), "pain_0_10": 7}, D),
    ("pyoderma", {"skin": (seen(SkinKind.ULCER),), "pain_0_10": 6}, None),
    ("pyoderma", {"skin": (seen(SkinKind.ULCER),), "person": IBD}, D),
    # 21: infection
    ("infection", {"skin": (seen(SkinKind.SPREADING_WARMTH),)}, S),
    ("abscess", {"skin": (seen(SkinKind.ABSCESS),), **feels(Symptom.FEVER)}, E),
    ("infection", {"skin": (seen(SkinKind.ABSCESS),)}, None),
    ("infected_hairs", {"skin": (seen(SkinKind.HAIR_PUSTULES),), **feels(Symptom.FEVER)}, S),
    ("infected_hairs", {"skin": (seen(SkinKind.HAIR_PUSTULES),)}, None),
    # 22: growth
    ("lump", {"skin": (seen(SkinKind.HARD_LUMP),)}, W),
    ("lump", {"skin": (seen(SkinKind.GRANULOMA),)}, None),
    ("lump", {"skin": (seen(SkinKind.GRANULOMA, enlarging=True),)}, W),
    # 23: ulcer under what presses
    ("pressure_ulcer", {"skin": (seen(SkinKind.ULCER),), "profile": Profile.CONVEX}, S),
    ("pressure_ulcer", {"skin": (seen(SkinKind.ULCER),), "accessories": None}, S),
    ("pressure_ulcer", {"skin": (seen(SkinKind.ULCER),)}, D),
    (
        "pressure_ulcer",
        {"skin": (seen(SkinKind.ULCER),), "accessories": frozenset({Accessory.BELT})},
        S,
    ),
    # 24, 25: cut, raw skin, leaks
    ("deep_cut", {"deep_cut": True}, S),
    ("deep_cut", {"deep_cut": None}, None),
    ("raw_skin", {"skin": (raw(outer_mm=20.0),)}, None),
    ("raw_skin", {"skin": (raw(outer_mm=20.5),)}, D),
    ("raw_skin", {"skin": (seen(SkinKind.BLISTERS, outer_mm=20.5, moist=False),)}, None),
    ("raw_skin", {"skin": (seen(SkinKind.BLISTERS, outer_mm=20.5, moist=None),)}, D),
    ("leaks_daily", LEAKS, D),
    ("leaks_daily", FEW_LEAKS, None),
    # Eleven leaks in six days.
    ("leaks_daily", {"wear": tuple(WearEpisode(days, RemovalReason.LEAK)
                                   for days in (*[0.5] * 10, 1.0))}, None),
    # 26: mild redness raises nothing
    ("raw_skin", {"skin": (seen(SkinKind.ERYTHEMA, outer_mm=40.0),)}, None),
    # out of place: by the facts on danger in symptoms, sections 1.10 to 1.14
    ("prolapse_new", prolapse(new=True), W),
    ("prolapse_new", prolapse(new=False), None),
    ("bulge_unasked", bulge(new=False), D),
    ("bulge_unasked", bulge(new=False, painful=False), None),
    ("bulge_new", bulge(new=True, reducible=True, painful=False), W),
    ("bulge_new", bulge(new=False, reducible=True, painful=False), None),
    ("bowel_outside", {"bowel_outside": True}, E),
    ("bowel_outside", {"bowel_outside": None}, None),
    ("separation_shallow", gap(GAP, depth_mm=5.0, base_visible=True), D),
    ("separation_shallow", gap(GAP, depth_mm=5.5, base_visible=True), None),
    ("rubbed", {"rubbed": True}, W),
    ("rubbed", {"rubbed": True, "bleeding": Bleeding.ON_WIPING}, S),
    ("rubbed", {"rubbed": True, "deep_cut": True}, None),
    ("narrow", feels(Symptom.RIBBON_STOOL), W),
    ("narrow", {**feels(Symptom.RIBBON_STOOL), "calibre": Calibre.LITTLE_FINGER}, D),
    ("narrow", {"calibre": Calibre.INDEX_FINGER}, None),
    # the whole person: 1.3
    ("sepsis", {"vitals": Vitals(breaths=25.0)}, E),
    ("sepsis", {"vitals": Vitals(breaths=24.9)}, None),
    ("early_leak", {"vitals": Vitals(pulse=111.0), "days_since_surgery": 30}, S),
    ("early_leak", {"vitals": Vitals(pulse=111.0), "days_since_surgery": 31}, None),
    ("early_leak", {"vitals": Vitals(pulse=110.0), "days_since_surgery": 30}, None),
    ("unwell", feels(Symptom.LOOKS_ILL), S),
    ("unwell", {**feels(Symptom.RIGORS), "days_since_surgery": 30}, E),
    # 1.1
    ("overflow", {**COLO, **feels(Symptom.SPURTING_OUTPUT, Symptom.HARD_MASS)}, S),
    ("overflow", feels(Symptom.SPURTING_OUTPUT, Symptom.HARD_MASS), None),
    ("constipation", {**COLO, "absent": frozenset(Symptom), "hours_without_output": 72.0}, D),
    ("constipation", {**COLO, "absent": frozenset(Symptom), "hours_without_output": 71.0}, None),
    ("constipation", {**COLO, "hours_without_output": 72.0}, None),
    ("pregnant_blocked", {**feels(Symptom.MILD_CRAMPS), "person": EXPECTING}, S),
    ("pregnant_blocked", {**feels(Symptom.MILD_CRAMPS, Symptom.VOMITING), "person": EXPECTING}, E),
    ("pregnant_blocked", {"person": EXPECTING}, None),
    # 1.4, 1.15, 1.16, other openings
    ("necrotising", {"skin": (seen(SkinKind.ERYTHEMA, numb_or_crackling=True),)}, S),
    ("necrotising", {"skin": (seen(SkinKind.ERYTHEMA, hours_to_spread=24.0),), "pain_0_10": 7}, E),
    (
        "necrotising",
        {"skin": (seen(SkinKind.ERYTHEMA, hours_to_spread=25.0),), "pain_0_10": 7},
        None,
    ),
    (
        "necrotising",
        {"skin": (seen(SkinKind.ERYTHEMA, hours_to_spread=24.0),), "pain_0_10": 6},
        None,
    ),
    ("abscess", {"skin": (seen(SkinKind.ABSCESS),)}, S),
    ("wound_leaks", {"wounds": FREE, "days_since_surgery": 30}, E),
    ("wound_leaks", {"wounds": FREE, "days_since_surgery": 31}, S),
    ("wound", {"wounds": FREE}, D),
    ("wound", {"wounds": ()}, None),
    ("discharge", {"discharge": Discharge.STOOL_AGAIN}, D),
    ("discharge", {"discharge": Discharge.OLD_STOOL_ONCE}, None),
    ("warty_stays", {"skin": (seen(SkinKind.WARTY),)}, None),
    ("dark_spot", {"skin": (seen(SkinKind.PIGMENTED_SPOT),)}, W),
    # 27: severe reaction
    ("anaphylaxis", feels(Symptom.FACE_SWELLING_OR_WHEEZE), E),
    # and the same-day rows of the management table
    ("blistering", {"skin": (seen(SkinKind.BLISTERS, product_outline=True),)}, D),
    ("blistering", {"skin": (seen(SkinKind.BLISTERS, ALL),)}, S),
    (
        "blistering",
        {"skin": (seen(SkinKind.BLISTERS, product_outline=True),), **feels(Symptom.FEVER)},
        S,
    ),
    ("blistering", {"skin": (seen(SkinKind.ERYTHEMA, product_outline=True),)}, None),
    ("veins", {"skin": (seen(SkinKind.DILATED_VEINS),)}, D),
    ("fistula", {"skin": (seen(SkinKind.FISTULA),)}, D),
    ("radiation", {"skin": (raw(),), "person": RAYS}, D),
]  # fmt: skip


@pytest.mark.parametrize(("key", "changes", "urgency"), ROWS)
def test_row(key: str, changes: dict[str, Any], urgency: Urgency | None) -> None:
    flags = {flag.key: flag.urgency for flag in recommend(well(**changes)).red_flags}
    assert flags.get(key) is urgency


# --- one finding calls one person once ---------------------------------------------------------
TWICE: list[tuple[dict[str, Any], dict[str, tuple[str, ...]]]] = [
    (
        {"colour": Colour.DUSKY, "turgor": Turgor.COLD},
        {"necrosis": ("dusky", "lifeless")},
    ),
    ({**prolapse(), "colour": Colour.DUSKY}, {"prolapse_trapped": ("dusky", "prolapse_new")}),
    (
        {**prolapse(), "colour": Colour.BLACK_BROWN_GREY},
        {"prolapse_trapped": ("necrosis", "prolapse_new")},
    ),
    (
        {**prolapse(), "colour": Colour.PURPLE, "turgor": Turgor.HARD},
        {"prolapse_trapped": ("necrosis", "dusky", "lifeless", "prolapse_new")},
    ),
    (gap(ALL), {"separation_deep": ()}),
    (
        {"bleeding": Bleeding.SPURTING_OR_UNSTOPPED, "person": LIVER},
        {"variceal_bleed": ("spurting",)},
    ),
    # Alone nothing is folded, and who is another person is called as before.
    ({"colour": Colour.DUSKY}, {"dusky": ()}),
    (gap(base_visible=True), {"separation": ()}),
    (
        {"bleeding": Bleeding.FROM_LUMEN, "person": LIVER},
        {"variceal_bleed": (), "blood_in_output": ()},
    ),
]


@pytest.mark.parametrize(("changes", "flags"), TWICE)
def test_what_says_less_of_one_finding_joins_what_says_more(
    changes: dict[str, Any], flags: dict[str, tuple[str, ...]]
) -> None:
    plan = recommend(well(**changes))
    assert {flag.key: set(flag.includes) for flag in plan.red_flags} == {
        key: set(joined) for key, joined in flags.items()
    }
    by_key = {rule.key: rule for rule in RULES}
    facts = situation(well(**changes)).facts
    for flag in plan.red_flags:
        said = {reason.text for reason in flag.because}
        for key in flag.includes:
            verdict = by_key[key].judge(facts)
            assert verdict is not None
            assert verdict.found in said
            assert verdict.urgency.rank >= flag.urgency.rank
            assert situation(well(**changes)).flagged(key)


def test_a_lump_that_grows_and_lasts_is_one_referral() -> None:
    lump = seen(SkinKind.HARD_LUMP)
    plan = recommend(well(skin=(lump,)), earlier(28, lump))
    assert [(f.key, f.includes) for f in plan.red_flags] == [("lump", ("lasting_lump",))]


def test_raw_skin_elsewhere_than_the_ulcer_stays_a_flag_of_its_own() -> None:
    ulcer, wide = seen(SkinKind.ULCER, outer_mm=30.0), raw(ClockHours.of(12), outer_mm=30.0)
    one = recommend(well(skin=(ulcer,))).red_flags
    assert [(f.key, f.includes) for f in one] == [("pressure_ulcer", ("raw_skin",))]
    two = recommend(well(skin=(wide, ulcer))).red_flags
    assert {f.key for f in two} == {"pressure_ulcer", "raw_skin"}


@pytest.mark.parametrize(("pulse", "expected"), [(101.0, E), (100.0, None)])
def test_a_bleed_with_a_fast_pulse_is_heavy(pulse: float, expected: Urgency | None) -> None:
    """``heavy_bleed``; for adults alone, so it is in no row that is tried under 16."""
    found = well(bleeding=Bleeding.OOZE_AT_JUNCTION, vitals=Vitals(pulse=pulse))
    assert {f.key: f.urgency for f in recommend(found).red_flags}.get("heavy_bleed") is expected


@pytest.mark.parametrize(("has", "expected"), [({Condition.CANCER}, W), (set(), None)])
def test_blood_in_urine_that_stopped(has: set[Condition], expected: Urgency | None) -> None:
    """``blood_stopped``: with cancer on record, blood at the visit before and none today."""
    person = Person(sensitivities=frozenset(), has=frozenset(has))
    today = well(**URO, person=person, urine_signs=frozenset())
    before = History(previous=(well(**URO, person=person, urine_signs=BLOOD),))
    raised = {f.key: f.urgency for f in recommend(today, before).red_flags}
    assert raised.get("blood_stopped") is expected


def test_a_well_stoma_raises_nothing() -> None:
    assert recommend(well()).red_flags == ()


def earlier(days: int, *findings: Any) -> History:
    return History(previous=(well(days_since_surgery=400 - days, skin=findings),))


@pytest.mark.parametrize(
    ("days", "before", "now", "expected"),
    [(14, 15.0, 15.0, W), (13, 15.0, 15.0, None), (14, 15.0, 14.0, None), (30, 10.0, 15.0, W)],
)
def test_skin_no_better_after_two_weeks(
    days: int, before: float, now: float, expected: Urgency | None
) -> None:
    plan = recommend(well(skin=(raw(outer_mm=now),)), earlier(days, raw(outer_mm=before)))
    assert {f.key: f.urgency for f in plan.red_flags}.get("not_healing") is expected


@pytest.mark.parametrize("skin", [None, ()])
def test_skin_that_was_intact_or_not_looked_at_then_is_not_slow_to_heal(skin: Any) -> None:
    before = History(previous=(well(days_since_surgery=300, skin=skin),))
    plan = recommend(well(skin=(raw(),)), before)
    assert "not_healing" not in {flag.key for flag in plan.red_flags}


@pytest.mark.parametrize(
    ("beside", "expected"),
    [
        ({}, Urgency.SAME_DAY),
        ({"junction": (Separation(LOW, 3.0, True, False),)}, Urgency.SAME_DAY),
        ({"junction": (Separation(LOW, 3.0, True, True),)}, Urgency.EMERGENCY),
        ({"skin": (seen(SkinKind.FISTULA),)}, Urgency.EMERGENCY),
    ],
)
def test_rising_pain_soon_after_surgery_with_bowel_content_beside_the_stoma(
    beside: dict[str, Any], expected: Urgency
) -> None:
    pain = frozenset({Symptom.RISING_PAIN})
    verdict = early_leak(situation(well(days_since_surgery=8, present=pain, **beside)).facts)
    assert verdict is not None
    assert verdict.urgency is expected


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"turgor": Turgor.COLD, "bleeds_on_touch": False}, "The stoma is cold."),
        ({"bleeds_on_touch": False}, "The stoma does not bleed when touched."),
    ],
)
def test_a_lifeless_stoma_is_said_by_its_feel_before_its_blood(
    changes: dict[str, Any], words: str
) -> None:
    verdict = lifeless(situation(well(**changes)).facts)
    assert verdict is not None
    assert verdict.found == words


@pytest.mark.parametrize(("days", "expected"), [(28, W), (27, None)])
def test_a_lump_that_lasts_is_biopsied(days: int, expected: Urgency | None) -> None:
    lump = seen(SkinKind.GRANULOMA)
    plan = recommend(well(skin=(lump,)), earlier(days, lump))
    assert {f.key: f.urgency for f in plan.red_flags}.get("lasting_lump") is expected


WORSE: list[dict[str, Any]] = [
    {"colour": Colour.BLACK_BROWN_GREY},
    {"bleeding": Bleeding.SPURTING_OR_UNSTOPPED},
    {"volume_ml_24h": 2500.0},
    {"hours_without_output": 80.0},
    {"watery_for_hours": 48.0},
    {"pain_0_10": 10},
    {"present": frozenset(Symptom)},
    {"deep_cut": True},
    {"skin": (seen(SkinKind.UNDERMINED_ULCER, enlarging=True), seen(SkinKind.ABSCESS))},
    {"junction": (Separation(ALL, 20.0, False, True),)},
]
STARTS: list[Findings] = [well(**changes) for _, changes, _ in ROWS]


@pytest.mark.parametrize("worse", WORSE)
def test_more_severe_findings_never_lower_the_urgency(worse: dict[str, Any]) -> None:
    for start in STARTS:
        before, after = situation(start).urgency, situation(worsened(start, worse)).urgency
        assert after.rank <= before.rank


def worsened(start: Findings, worse: dict[str, Any]) -> Findings:
    """``start`` with one danger more; much urine is none."""
    if "volume_ml_24h" in worse and start.stoma.kind is StomaKind.UROSTOMY:
        return start
    skin = worse.get("skin")
    return _changed(start, {"skin": (start.skin or ()) + skin} if skin else worse)


def _changed(start: Findings, changes: dict[str, Any]) -> Findings:
    for name, value in changes.items():
        part = next(
            (p for p in ("measurement", "output") if hasattr(getattr(start, p), name)), None
        )
        if part is None:
            start = replace(start, **{name: value})
        else:
            start = replace(start, **{part: replace(getattr(start, part), **{name: value})})
    return start
