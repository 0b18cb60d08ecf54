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
    Colour,
    Condition,
    Consistency,
    Findings,
    Medicine,
    Person,
    PouchBlood,
    Prolapse,
    Separation,
    Stoma,
    StomaKind,
    Symptom,
    Turgor,
    UrineSign,
    Vitals,
)
from planning.results.plan import Urgency
from tests.planning.builders import ALL, WELL, well

E, S, T, D = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE, Urgency.DAYS
ILEO, COLO, URO = StomaKind.ILEOSTOMY, StomaKind.COLOSTOMY, StomaKind.UROSTOMY
JEJU = StomaKind.JEJUNOSTOMY
THREE = frozenset({Symptom.SEVERE_CRAMPS, Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN})
THINNER = Person(sensitivities=frozenset(), has=frozenset({Condition.ANTICOAGULANT}))
FEW_PLATELETS = Person(sensitivities=frozenset(), has=frozenset({Condition.LOW_PLATELETS}))
DIURETIC = Person(sensitivities=frozenset(), medicines=frozenset({Medicine.DIURETIC}))
WEAK = Person(sensitivities=frozenset(), has=frozenset({Condition.IMMUNOSUPPRESSED}))


class Danger(NamedTuple):
    """``level``: the least urgent answer that is right with everything else good."""

    name: str
    changes: dict[str, Any]
    level: Urgency

    @property
    def on_a_well_stoma(self) -> Findings:
        return well(**self.changes)

    @property
    def and_nothing_else_known(self) -> Findings:
        kind = self.changes.get("kind", ILEO)
        bare = Findings(person=Person(), stoma=Stoma(kind))
        for name, value in self.changes.items():
            bare = _with(bare, name, value)
        return bare


def _with(found: Findings, name: str, value: Any) -> Findings:
    if name == "person":
        return replace(found, person=value)
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


_LIFELESS = (Turgor.HARD, Turgor.COLD, Turgor.DRY, Turgor.FLABBY)

DANGERS = (
    *(
        Danger(f"blocked {kind} silent {hours}", {
            "kind": kind, "present": THREE, "hours_without_output": hours}, E)
        for kind in (ILEO, JEJU, COLO)
        for hours in (None, 0.0, 3.0, 20.0)
    ),
    Danger("severe cramps, hours unknown", _feels(Symptom.SEVERE_CRAMPS), E),
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
    Danger("prolapse that does not go back", {"prolapse": (Prolapse(40.0, False, False),)}, E),
    Danger("prolapse, pain not asked", {"prolapse": (Prolapse(40.0, True, None),)}, S),
    Danger("prolapse, going back not tested", {"prolapse": (Prolapse(40.0, None, False),)}, S),
    Danger("gap of unknown depth on day 6", {**_gap(), "days_since_surgery": 6}, S),
    Danger("gap of unknown depth", _gap(), D),
    Danger("gap of 21 mm", _gap(depth_mm=21.0), S),
    Danger("gap all round", {"junction": (Separation(ALL),)}, S),
    Danger("deep cut", {"deep_cut": True}, S),
    Danger("watery for more than a day", {"watery_for_hours": 25.0}, T),
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
    Danger("two clear signs of drying out",
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
