"""Each danger sign alone, as a change to a stoma that is well or to one of which nothing is known.

Levels by the clinical facts for red flags; their level marks are design values.
"""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any, NamedTuple

from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Bleeding,
    Bulge,
    Calibre,
    Colour,
    ColourPart,
    Condition,
    Consistency,
    Discharge,
    Findings,
    Medicine,
    Oedema,
    Person,
    PouchBlood,
    Prolapse,
    Separation,
    SkinFinding,
    SkinKind,
    Stoma,
    StomaKind,
    Symptom,
    Turgor,
    UrineSign,
    Vitals,
    Wound,
)
from planning.results.plan import Urgency
from tests.planning.builders import ALL, WELL, well

E, S, D = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.DAYS
T, W = Urgency.TELEPHONE, Urgency.TWO_WEEKS
ILEO, COLO, URO = StomaKind.ILEOSTOMY, StomaKind.COLOSTOMY, StomaKind.UROSTOMY
JEJU = StomaKind.JEJUNOSTOMY
THREE = frozenset({Symptom.SEVERE_CRAMPS, Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN})
THINNER = Person(sensitivities=frozenset(), has=frozenset({Condition.ANTICOAGULANT}))
FEW_PLATELETS = Person(sensitivities=frozenset(), has=frozenset({Condition.LOW_PLATELETS}))
DIURETIC = Person(sensitivities=frozenset(), medicines=frozenset({Medicine.DIURETIC}))
WEAK = Person(sensitivities=frozenset(), has=frozenset({Condition.IMMUNOSUPPRESSED}))


#: A person of whom everything was asked and measured, and nothing is wrong.
KNOWN = Person(
    sensitivities=frozenset(), has_not=frozenset(Condition), age_years=40, medicines=frozenset()
)
NORMAL = Vitals(36.8, 36.8, 72.0, 14.0, 124.0)


def all_good(**changes: Any) -> Findings:
    """``well`` with ``changes``, every symptom asked, every sign measured and the stoma felt."""
    present = changes.get("present", frozenset())
    usual: dict[str, Any] = {
        "person": KNOWN,
        "absent": frozenset(Symptom) - present,
        "bleeds_on_touch": True,
        "pain_0_10": 0,
        "hours_without_output": 0.0,
        "oedema": Oedema.NONE,
        "bowel_outside": False,
        "deep_cut": False,
        "rubbed": False,
        "pouch_blood": PouchBlood.NONE,
        "discharge": Discharge.NONE,
        "wounds": (),
    }
    given = changes.get("vitals", Vitals())
    measured = {
        f.name: getattr(NORMAL if getattr(given, f.name) is None else given, f.name)
        for f in fields(Vitals)
    }
    return well(**{**usual, **changes, "vitals": Vitals(**measured)})


class Danger(NamedTuple):
    """``level``: the least urgent answer that is right with everything else good."""

    name: str
    changes: dict[str, Any]
    level: Urgency

    @property
    def on_a_well_stoma(self) -> Findings:
        return well(**self.changes)

    @property
    def with_all_else_good(self) -> Findings:
        return all_good(**self.changes)

    @property
    def and_nothing_else_known(self) -> Findings:
        kind = self.changes.get("kind", ILEO)
        bare = Findings(person=Person(), stoma=Stoma(kind))
        for name, value in self.changes.items():
            bare = _with(bare, name, value)
        return bare


def _with(found: Findings, name: str, value: Any) -> Findings:
    if name in ("person", "skin", "wounds"):
        return replace(found, **{name: value})
    part = next(
        f.name
        for f in fields(found)
        if is_dataclass(getattr(WELL, f.name)) and hasattr(getattr(WELL, f.name), name)
    )
    return replace(found, **{part: replace(getattr(found, part), **{name: value})})


def _feels(*symptoms: Symptom, **more: Any) -> dict[str, Any]:
    return {"present": frozenset(symptoms), **more}


def _gap(**how: Any) -> dict[str, Any]:
    return {"junction": (Separation(ClockHours.of(4, 5, 6), **how),)}


def _bulge(**how: Any) -> dict[str, Any]:
    return {"bulges": (Bulge(ClockHours.of(3), **how),)}


def _skin(kind: SkinKind, **how: Any) -> dict[str, Any]:
    return {"skin": (SkinFinding(kind, ClockHours.of(4, 5), 0.0, 15.0, **how),)}


def _vitals(**measured: float) -> dict[str, Any]:
    return {"vitals": Vitals(**measured)}


def _takes(*medicines: Medicine) -> Person:
    return Person(sensitivities=frozenset(), medicines=frozenset(medicines))


def _has(*conditions: Condition) -> Person:
    return Person(sensitivities=frozenset(), has=frozenset(conditions))


_LIFELESS = (Turgor.HARD, Turgor.COLD, Turgor.DRY, Turgor.FLABBY)

DANGERS = (
    *(
        Danger(f"blocked {kind} silent {hours}", {
            "kind": kind, "present": THREE, "hours_without_output": hours}, E)
        for kind in (ILEO, JEJU, COLO)
        for hours in (None, 0.0, 3.0, 20.0)
    ),
    Danger("severe cramps, hours unknown",
           _feels(Symptom.SEVERE_CRAMPS, hours_without_output=None), E),
    Danger("severe cramps, output goes on",
           _feels(Symptom.SEVERE_CRAMPS, hours_without_output=0.0), S),
    Danger("severe cramps, watery output",
           _feels(Symptom.SEVERE_CRAMPS, hours_without_output=0.0,
                  consistency=Consistency.WATERY), E),
    Danger("severe cramps on day 21",
           _feels(Symptom.SEVERE_CRAMPS, hours_without_output=0.0, days_since_surgery=21), E),
    Danger("severe cramps, colostomy", _feels(Symptom.SEVERE_CRAMPS, kind=COLO), S),
    Danger("swollen and vomiting, colostomy",
           _feels(Symptom.SWOLLEN_ABDOMEN, Symptom.VOMITING, kind=COLO), E),
    *(Danger(f"mild cramps, {kind}", _feels(Symptom.MILD_CRAMPS, kind=kind), D)
      for kind in StomaKind),
    *(Danger(f"nausea, {kind}", _feels(Symptom.NAUSEA, kind=kind), D) for kind in StomaKind),
    *(Danger(f"vomiting, {kind}", _feels(Symptom.VOMITING, kind=kind), S) for kind in StomaKind),
    *(Danger(f"swollen, {kind}", _feels(Symptom.SWOLLEN_ABDOMEN, kind=kind), S)
      for kind in StomaKind),
    *(Danger(f"{symptom}, {kind}", _feels(symptom, kind=kind), level)
      for kind in StomaKind
      for symptom, level in (
          (Symptom.DIZZY_ON_STANDING, S), (Symptom.FAINTNESS, E), (Symptom.CONFUSION, E),
          (Symptom.LITTLE_URINE, S), (Symptom.FEVER, S), (Symptom.LOIN_PAIN, D),
          (Symptom.FACE_SWELLING_OR_WHEEZE, E))),
    Danger("no output for a day", {"hours_without_output": 24.0}, E),
    Danger("no output for half a day", {"hours_without_output": 12.0}, S),
    Danger("no output for three days, colostomy",
           {"kind": COLO, "hours_without_output": 72.0}, D),
    Danger("fever and a swollen abdomen on day 6",
           _feels(Symptom.FEVER, Symptom.SWOLLEN_ABDOMEN, days_since_surgery=6), E),
    Danger("fever and mild cramps, day unknown",
           _feels(Symptom.FEVER, Symptom.MILD_CRAMPS, days_since_surgery=None), E),
    Danger("fever with weak defences", _feels(Symptom.FEVER, person=WEAK), E),
    Danger("fever, a swollen abdomen, vomiting",
           _feels(Symptom.FEVER, Symptom.SWOLLEN_ABDOMEN, Symptom.VOMITING), E),
    *(Danger(f"pain {score}", {"pain_0_10": score}, S) for score in (7, 8, 9, 10)),
    Danger("pain 4", {"pain_0_10": 4}, D),
    Danger("pain 7 on day 6", {"pain_0_10": 7, "days_since_surgery": 6}, E),
    *(Danger(f"{turgor} on day {day}", {"turgor": turgor, "days_since_surgery": day}, level)
      for turgor in _LIFELESS
      for day, level in ((3, E), (30, E), (None, E), (31, S))),
    *(Danger(f"slough on day {day}",
             {"colour": Colour.YELLOW_SLOUGH, "days_since_surgery": day}, level)
      for day, level in ((4, S), (6, S), (30, S), (None, S), (31, D))),
    Danger("slough with fever on day 5",
           _feels(Symptom.FEVER, colour=Colour.YELLOW_SLOUGH, days_since_surgery=5), E),
    Danger("25 mm below the skin on day 6",
           {"protrusion_mm": -25.0, "days_since_surgery": 6}, E),
    Danger("20 mm below the skin on day 6",
           {"protrusion_mm": -20.0, "days_since_surgery": 6}, E),
    Danger("19 mm below the skin on day 6",
           {"protrusion_mm": -19.0, "days_since_surgery": 6}, S),
    Danger("5 mm below the skin, day unknown",
           {"protrusion_mm": -5.0, "days_since_surgery": None}, S),
    *(Danger(f"{colour} on day {day}", {"colour": colour, "days_since_surgery": day}, level)
      for colour in (Colour.DUSKY, Colour.PURPLE)
      for day, level in ((3, E), (30, E), (None, E), (31, S))),
    Danger("dusky, feel not recorded", {"colour": Colour.DUSKY, "turgor": None}, E),
    Danger("black", {"colour": Colour.BLACK_BROWN_GREY}, E),
    Danger("pale", {"colour": Colour.PALE}, S),
    Danger("not looked at on day 5", {"colour": None, "days_since_surgery": 5}, S),
    Danger("urostomy, nothing in a day", {"kind": URO, "volume_ml_24h": 0.0}, E),
    Danger("urostomy, 350 mL in a day", {"kind": URO, "volume_ml_24h": 350.0}, S),
    Danger("urostomy, 350 mL and vomiting",
           _feels(Symptom.VOMITING, kind=URO, volume_ml_24h=350.0), E),
    Danger("urostomy, blood in urine",
           {"kind": URO, "urine_signs": frozenset({UrineSign.BLOOD})}, S),
    Danger("urostomy, blood in urine under an anticoagulant",
           {"kind": URO, "urine_signs": frozenset({UrineSign.BLOOD}), "person": THINNER}, S),
    Danger("urostomy, blood from inside", {"kind": URO, "bleeding": Bleeding.FROM_LUMEN}, S),
    Danger("junction oozes", {"bleeding": Bleeding.OOZE_AT_JUNCTION}, S),
    Danger("junction oozes under an anticoagulant",
           {"bleeding": Bleeding.OOZE_AT_JUNCTION, "person": THINNER}, E),
    Danger("blood from inside under an anticoagulant",
           {"bleeding": Bleeding.FROM_LUMEN, "person": THINNER}, E),
    Danger("a trace under an anticoagulant",
           {"bleeding": Bleeding.ON_WIPING, "person": THINNER}, T),
    Danger("a trace with few platelets",
           {"bleeding": Bleeding.ON_WIPING, "person": FEW_PLATELETS}, T),
    Danger("blood in the pouch once", {"pouch_blood": PouchBlood.ONCE}, S),
    Danger("clots in the pouch", {"pouch_blood": PouchBlood.CLOTS}, E),
    Danger("a bleed that stopped 14 days ago", {"bleeding_stopped_days": 14.0}, S),
    Danger("oozing with a pulse of 101",
           {"bleeding": Bleeding.OOZE_AT_JUNCTION, "vitals": Vitals(pulse=101.0)}, E),
    Danger("spurting", {"bleeding": Bleeding.SPURTING_OR_UNSTOPPED}, E),
    Danger("painful bulge that goes back", _bulge(reducible=True, painful=True), S),
    Danger("painful bulge, not tested", _bulge(painful=True), E),
    Danger("painful bulge that does not go back", _bulge(reducible=False, painful=True), E),
    Danger("painless bulge that does not go back", _bulge(reducible=False, painful=False), S),
    Danger("bulge and vomiting",
           {**_bulge(reducible=True, painful=False), **_feels(Symptom.VOMITING)}, E),
    Danger("prolapse, pain not asked", {"prolapse": (Prolapse(40.0, True, None),)}, S),
    Danger("prolapse, going back not tested", {"prolapse": (Prolapse(40.0, None, False),)}, S),
    Danger("gap of unknown depth on day 6", {**_gap(), "days_since_surgery": 6}, S),
    Danger("gap of unknown depth", _gap(), D),
    Danger("gap of 21 mm", _gap(depth_mm=21.0), S),
    Danger("gap all round", {"junction": (Separation(ALL),)}, S),
    Danger("deep cut", {"deep_cut": True}, S),
    Danger("watery for more than a day", {"watery_for_hours": 25.0}, T),
    # 1.1: blockage
    *(Danger(f"{symptom}, {kind}", _feels(symptom, kind=kind), E)
      for kind in StomaKind
      for symptom in (Symptom.CONSTANT_SEVERE_PAIN, Symptom.RIGID_ABDOMEN)),
    Danger("severe cramps in spurts",
           _feels(Symptom.SEVERE_CRAMPS, Symptom.SPURTING_OUTPUT, hours_without_output=0.0), E),
    Danger("mild cramps in spurts",
           _feels(Symptom.MILD_CRAMPS, Symptom.SPURTING_OUTPUT, hours_without_output=0.0), S),
    Danger("mild cramps in spurts on day 21",
           _feels(Symptom.MILD_CRAMPS, Symptom.SPURTING_OUTPUT, hours_without_output=0.0,
                  days_since_surgery=21), E),
    Danger("mild cramps and a swollen stoma",
           _feels(Symptom.MILD_CRAMPS, oedema=Oedema.MARKED, hours_without_output=0.0), S),
    Danger("mild cramps and dark urine",
           _feels(Symptom.MILD_CRAMPS, Symptom.DARK_URINE, hours_without_output=0.0), S),
    Danger("no output for six hours", {"hours_without_output": 6.0}, T),
    Danger("no gas, colostomy", _feels(Symptom.NO_GAS, kind=COLO), S),
    Danger("no gas, no stool, pain, colostomy",
           _feels(Symptom.NO_GAS, Symptom.ABDOMINAL_PAIN, kind=COLO,
                  hours_without_output=24.0), E),
    Danger("overflow", _feels(Symptom.HARD_MASS, kind=COLO, consistency=Consistency.LIQUID), S),
    Danger("overflow under an opioid",
           _feels(Symptom.SPURTING_OUTPUT, kind=COLO, person=_takes(Medicine.OPIOID)), S),
    Danger("overflow without gas",
           _feels(Symptom.HARD_MASS, Symptom.NO_GAS, kind=COLO,
                  consistency=Consistency.LIQUID), E),
    Danger("hard mass, colostomy", _feels(Symptom.HARD_MASS, kind=COLO), T),
    Danger("mild cramps in pregnancy",
           _feels(Symptom.MILD_CRAMPS, person=_has(Condition.PREGNANT)), S),
    Danger("cramps and no gas in pregnancy",
           _feels(Symptom.MILD_CRAMPS, Symptom.NO_GAS, person=_has(Condition.PREGNANT)), E),
    Danger("mild cramps with a bulge",
           {**_bulge(reducible=True, painful=False, new=False), **_feels(Symptom.MILD_CRAMPS)}, S),
    # 1.2: blood supply
    *(Danger(f"a {colour} part on day {day}",
             {"colour_parts": (ColourPart(colour, ClockHours.of(10, 11, 12)),),
              "days_since_surgery": day}, level)
      for colour, day, level in (
          (Colour.BLACK_BROWN_GREY, 400, E), (Colour.DUSKY, 4, E), (Colour.DUSKY, 31, S),
          (Colour.YELLOW_SLOUGH, 20, S))),
    Danger("dusky, does not bleed", {"colour": Colour.DUSKY, "bleeds_on_touch": False}, E),
    Danger("dusky, no output", {"colour": Colour.DUSKY, "hours_without_output": 4.0}, E),
    Danger("dusky, known to a surgeon, in the first week",
           {"colour": Colour.DUSKY, "colour_known": True, "bleeds_on_touch": True,
            "days_since_surgery": 7}, E),
    Danger("does not bleed on touch", {"bleeds_on_touch": False}, S),
    Danger("does not bleed on touch, day 30",
           {"bleeds_on_touch": False, "days_since_surgery": 30}, E),
    # 1.3, 1.5: sepsis, leak, weak defences
    Danger("38.0 measured", _vitals(temperature_c=38.0), S),
    Danger("38.1 at home, 37.2 now", _vitals(temperature_c=37.2, highest_c=38.1), S),
    Danger("38.0 and a pulse of 111 on day 6",
           {**_vitals(temperature_c=38.0, pulse=111.0), "days_since_surgery": 6}, E),
    Danger("a pulse of 111 on day 6", {**_vitals(pulse=111.0), "days_since_surgery": 6}, S),
    Danger("a pulse of 111 and pain that rises on day 6",
           {**_vitals(pulse=111.0), **_feels(Symptom.RISING_PAIN), "pain_0_10": 2,
            "days_since_surgery": 6}, E),
    Danger("rigors on day 6", _feels(Symptom.RIGORS, days_since_surgery=6), E),
    Danger("rigors", _feels(Symptom.RIGORS), S),
    Danger("rigors with a central line",
           _feels(Symptom.RIGORS, person=_has(Condition.CENTRAL_LINE)), E),
    Danger("looks ill", _feels(Symptom.LOOKS_ILL), S),
    Danger("fever and looks ill", _feels(Symptom.FEVER, Symptom.LOOKS_ILL), E),
    Danger("mottled", _feels(Symptom.MOTTLED_SKIN), E),
    Danger("breathing 25", _vitals(breaths=25.0), E),
    Danger("pulse 131", _vitals(pulse=131.0), E),
    Danger("pressure 90", _vitals(systolic_mmhg=90.0), E),
    Danger("pressure 100 with a pulse of 101", _vitals(systolic_mmhg=100.0, pulse=101.0), E),
    *(Danger(f"fever with {condition}", _feels(Symptom.FEVER, person=_has(condition)), E)
      for condition in (Condition.CHEMOTHERAPY_RECENT, Condition.TRANSPLANT,
                        Condition.NEUTROPENIA, Condition.IMMUNOSUPPRESSED)),
    Danger("fever with diabetes", _feels(Symptom.FEVER, person=_has(Condition.DIABETES)), S),
    Danger("35.9 after chemotherapy",
           {**_vitals(temperature_c=35.9), "person": _has(Condition.CHEMOTHERAPY_RECENT)}, E),
    Danger("fever under a steroid",
           _feels(Symptom.FEVER, person=_takes(Medicine.STEROID)), E),
    # 1.4: infection at the stoma
    Danger("spreading redness", _skin(SkinKind.SPREADING_WARMTH), S),
    Danger("redness past its mark in 4 hours",
           _skin(SkinKind.SPREADING_WARMTH, hours_to_spread=4.0), E),
    Danger("spreading redness with a pulse of 101",
           {**_skin(SkinKind.SPREADING_WARMTH), **_vitals(pulse=101.0)}, E),
    Danger("abscess", _skin(SkinKind.ABSCESS), S),
    Danger("abscess under a biologic",
           {**_skin(SkinKind.ABSCESS), "person": _takes(Medicine.BIOLOGIC)}, E),
    Danger("crackling skin", _skin(SkinKind.ERYTHEMA, numb_or_crackling=True), S),
    Danger("crackling skin with fever",
           {**_skin(SkinKind.ERYTHEMA, numb_or_crackling=True), **_vitals(highest_c=38.2)}, E),
    Danger("strong pain, spread within hours",
           {**_skin(SkinKind.ERYTHEMA, hours_to_spread=6.0), "pain_0_10": 8}, E),
    # 1.10, 1.11, 1.12: out of place
    Danger("new prolapse that stays out",
           {"prolapse": (Prolapse(40.0, False, False, new=True),)}, S),
    Danger("prolapse that stays out, not known to be old",
           {"prolapse": (Prolapse(40.0, False, False),)}, S),
    Danger("prolapse that hurts badly",
           {"prolapse": (Prolapse(40.0, True, True, new=False),), "pain_0_10": 7}, E),
    Danger("prolapse that swells", {"prolapse": (Prolapse(40.0, True, False, False, True),)}, S),
    Danger("hard prolapse",
           {"prolapse": (Prolapse(40.0, True, False, False),), "turgor": Turgor.HARD}, E),
    Danger("new prolapse that goes back", {"prolapse": (Prolapse(40.0, True, False, True),)}, W),
    Danger("red skin over a bulge", _bulge(reducible=True, painful=False, skin_changed=True), E),
    Danger("hard bulge", _bulge(reducible=True, painful=False, new=False, hard=True), S),
    Danger("new bulge", _bulge(reducible=True, painful=False, new=True), W),
    Danger("bulge of which nothing was asked", _bulge(new=False), D),
    Danger("bowel outside", {"bowel_outside": True}, E),
    # 1.13, 1.14, 1.15, 1.16 and wounds
    Danger("ribbon stool", _feels(Symptom.RIBBON_STOOL, kind=COLO), W),
    Danger("ribbon stool, little finger",
           _feels(Symptom.RIBBON_STOOL, kind=COLO, calibre=Calibre.LITTLE_FINGER), D),
    Danger("nothing passes", {"kind": COLO, "calibre": Calibre.NOTHING}, D),
    Danger("gap of 4 mm", _gap(depth_mm=4.0, base_visible=True), D),
    Danger("gap of 12 mm", _gap(depth_mm=12.0, base_visible=True), D),
    Danger("gap with fascia seen", _gap(depth_mm=4.0, fascia_seen=True), S),
    Danger("gap with stool in it", _gap(depth_mm=4.0, contaminated=True), S),
    Danger("gap with stool in it, pulse 101",
           {**_gap(contaminated=True), **_vitals(pulse=101.0)}, E),
    Danger("shallow gap, fever and a painful belly",
           {**_gap(depth_mm=1.0), **_feels(Symptom.FEVER, Symptom.ABDOMINAL_PAIN)}, E),
    Danger("fistula", _skin(SkinKind.FISTULA), D),
    Danger("fistula that hurts", _skin(SkinKind.FISTULA, pain=True), S),
    Danger("fistula on day 20", {**_skin(SkinKind.FISTULA), "days_since_surgery": 20}, S),
    Danger("fistula and fever on day 20",
           {**_skin(SkinKind.FISTULA), **_vitals(temperature_c=38.0), "days_since_surgery": 20}, E),
    Danger("bowel content free from a wound on day 9",
           {"wounds": (Wound(ClockHours.of(3), comes_free=True),), "days_since_surgery": 9}, E),
    Danger("open wound", {"wounds": (Wound(ClockHours.of(3), pus=False),)}, D),
    Danger("open wound with pus", {"wounds": (Wound(ClockHours.of(3), pus=True),)}, S),
    Danger("pus from below", {"discharge": Discharge.PUS}, S),
    Danger("blood from below", {"discharge": Discharge.BLOOD}, S),
    Danger("stool again from below", {"discharge": Discharge.STOOL_AGAIN}, D),
    Danger("hard lump", _skin(SkinKind.HARD_LUMP), W),
    Danger("granuloma that grew", _skin(SkinKind.GRANULOMA, changing=True), W),
    Danger("dark spot that changes", _skin(SkinKind.PIGMENTED_SPOT, changing=True), W),
    Danger("dark spot, change unknown", _skin(SkinKind.PIGMENTED_SPOT, across_mm=3.0), W),
    Danger("large dark spot", _skin(SkinKind.PIGMENTED_SPOT, changing=False, across_mm=6.5), W),
    Danger("pale line", {"rubbed": True}, W),
    Danger("cut that bleeds", {"rubbed": True, "bleeding": Bleeding.ON_WIPING}, S),
    Danger("pain that rises, no score", _feels(Symptom.RISING_PAIN, pain_0_10=None), S),
    Danger("two litres", {"volume_ml_24h": 2000.0}, E),
    Danger("a litre", {"volume_ml_24h": 1000.0, "days_since_surgery": 400}, T),
    Danger("a litre and a half, for how long not known", {"volume_ml_24h": 1500.0}, S),
    Danger("a litre, dry mouth and thirst",
           _feels(Symptom.DRY_MOUTH, Symptom.THIRST, volume_ml_24h=1000.0), S),
    Danger("not measured, thirst", _feels(Symptom.THIRST, volume_ml_24h=None), T),
    Danger("500 above the own mean", {"volume_ml_24h": 900.0, "usual_ml_24h": 400.0}, T),
    *(Danger(f"{symptom}, {kind}", _feels(symptom, kind=kind), level)
      for kind in (ILEO, URO)
      for symptom, level in (
          (Symptom.LIMB_CRAMPS, S), (Symptom.LIMB_WEAKNESS, E), (Symptom.PALPITATIONS, E),
          (Symptom.CANNOT_KEEP_FLUIDS, E), (Symptom.RESTLESS, D))),
    Danger("two clear signs of dehydration",
           _feels(Symptom.DIZZY_ON_STANDING, Symptom.LIMB_CRAMPS), E),
    Danger("urine under 800 mL", {"urine_ml_24h": 799.0}, S),
    Danger("urine under 400 mL", {"urine_ml_24h": 399.0}, E),
    Danger("no urine for 8 hours", {"hours_without_urine": 8.0}, E),
    Danger("pulse over 100", {"vitals": Vitals(pulse=101.0)}, S),
    Danger("urostomy, under half of the usual",
           {"kind": URO, "volume_ml_24h": 740.0, "usual_ml_24h": 1500.0}, S),
    Danger("urostomy, stent out", {"kind": URO, "stent_out_early": True}, S),
    Danger("urostomy, thin long stream",
           {"kind": URO, "urine_signs": frozenset({UrineSign.THIN_LONG_STREAM})}, D),
    Danger("urostomy, cloudy", {"kind": URO, "urine_signs": frozenset({UrineSign.CLOUDY})}, D),
    Danger("urostomy, tired", _feels(Symptom.TIRED, kind=URO), S),
    Danger("urostomy, measured fever",
           {"kind": URO, "vitals": Vitals(temperature_c=38.0)}, E),
    Danger("urostomy, rigors", _feels(Symptom.RIGORS, kind=URO), E),
    Danger("urostomy, clots", {"kind": URO, "urine_signs": frozenset({UrineSign.CLOTS})}, E),
    Danger("urostomy, pink", {"kind": URO, "urine_signs": frozenset({UrineSign.PINK})}, T),
    Danger("whole tablets in the pouch", {"tablets_whole": True}, D),
    Danger("a litre and a half under a diuretic",
           {"volume_ml_24h": 1500.0, "person": DIURETIC}, S),
)  # fmt: skip
