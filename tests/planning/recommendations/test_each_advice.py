"""Each piece of advice: findings in which it is given, and the nearest in which it is not."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Ability,
    Accessory,
    Bulge,
    ChangedBy,
    Colour,
    Condition,
    ConvexDepth,
    Crease,
    Degree,
    Material,
    OpeningKind,
    Person,
    Pieces,
    Profile,
    Prolapse,
    RemovalReason,
    SkinKind,
    StomaKind,
    Symptom,
    Trial,
    UrineSign,
    Vitals,
    WearEpisode,
)
from planning.recommendations.register import ADVICE
from tests.planning.builders import ALL, LOW, leaking, raw, seen, situation, well
from tests.planning.recommendations.test_situations import EXAMPLES

Changes = dict[str, Any]
WEAK = Person(sensitivities=frozenset(), dexterity=Ability.LIMITED)
DYING = Person(sensitivities=frozenset(), has=frozenset({Condition.LAST_WEEKS_OF_LIFE}))
LIVER = Person(has=frozenset({Condition.LIVER_DISEASE}))
BULGE = {"bulges": (Bulge(ClockHours.of(3), 15.0, 60.0, True, False),)}
HIGH = {"bulges": (Bulge(ClockHours.of(3), 60.0, 60.0, True, False),), "leak": LOW}
CRYSTALS = {"kind": StomaKind.UROSTOMY, "urine_signs": frozenset({UrineSign.CRYSTALS})}
REACTION = {
    "skin": (seen(SkinKind.ERYTHEMA, ALL, outer_mm=40.0, product_outline=True),),
    "accessories": frozenset({Accessory.PROTECTANT}),
}
BELT = frozenset({Accessory.BELT})
#: A frame at the outline of a usual barrier, and weals at a belt's line far beyond it.
FRAME = seen(SkinKind.ERYTHEMA, ALL, inner_mm=28.0, outer_mm=36.0, product_outline=True)
WEALS = seen(
    SkinKind.ERYTHEMA, ClockHours.of(3, 9), inner_mm=110.0, outer_mm=130.0, product_outline=True
)
FLUSH = {"protrusion_mm": 0.0, "leak": LOW}


def worn(days: float) -> Changes:
    return {"wear": (WearEpisode(days, RemovalReason.PLANNED),)}


def leaked(barriers: int, days: float) -> Changes:
    return {"wear": (WearEpisode(days, RemovalReason.LEAK),) * barriers}


SICK = frozenset({Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN})
CRAMPS = frozenset({Symptom.SEVERE_CRAMPS})
MILD = frozenset({Symptom.MILD_CRAMPS})
FIRST_AID: Changes = {
    "present": MILD, "absent": frozenset(Symptom) - MILD, "hours_without_output": 0.0,
}  # fmt: skip
NO_STOOL: Changes = {
    "kind": StomaKind.COLOSTOMY, "absent": frozenset(Symptom), "hours_without_output": 72.0,
}  # fmt: skip
ONE_LEAK = WearEpisode(2.0, RemovalReason.LEAK)
SEVEN_HELD = (WearEpisode(4.0, RemovalReason.PLANNED),) * 7
THICK = frozenset({Symptom.THICK_STICKING_STOOL})
LEVELLED: Changes = {"leak": LOW, "profile": Profile.CONCAVE,
                     "accessories": frozenset({Accessory.HALF_RING})}  # fmt: skip
CREASED: Changes = {"leak": LOW, "creases": (Crease(LOW, 6.0),),
                    "accessories": frozenset({Accessory.STRIP})}  # fmt: skip
SOFT: Changes = {"profile": Profile.CONVEX, "convex_depth": ConvexDepth.SHALLOW,
                 "compressibility": Degree.MORE, "flexibility": None}  # fmt: skip
SLIPPED: Changes = {"leak": LOW, "prolapse": (Prolapse(30.0, True, False),), "widest_mm": 45.0,
                    "pieces": Pieces.ONE, "opening_length_mm": 50.0,
                    "opening_width_mm": 50.0}  # fmt: skip
EVERYTHING: Changes = {"profile": Profile.CONVEX, "convex_depth": ConvexDepth.DEEP,
                       "compressibility": Degree.LESS, "flexibility": None,
                       "accessories": frozenset({Accessory.RING, Accessory.BELT})}  # fmt: skip
ONE_HAND: Changes = {"person": Person(sensitivities=frozenset(), dexterity=Ability.ONE_HAND)}
PRE_CUT: Changes = {"opening_kind": OpeningKind.PRE_CUT}
#: Begun recently and not yet worn long enough.
NEW_TRIAL = History(trials=(Trial(frozenset({"flat_flexible"}), barriers=2, days=4.0),))
HAIRS: Changes = {"skin": (seen(SkinKind.HAIR_PUSTULES),)}


BLIND = Person(sensitivities=frozenset(), eyesight=Ability.NONE, changed_by=ChangedBy.SELF)

ROWS: list[tuple[str, Changes, Changes]] = [
    ("wear_interval", {**worn(7.5), "leak": LOW}, {**worn(7.0), "leak": LOW}),
    ("wear_interval", {"skin": (raw(),)}, {"skin": (raw(moist=False),)}),
    ("wear_as_now", {**leaked(7, 5.0), **HAIRS}, {**leaked(8, 5.0), **HAIRS}),
    ("early_leak_cause", {**leaked(8, 1.5), **HAIRS}, {**leaked(8, 5.0), **HAIRS}),
    ("patch_test", REACTION, {**REACTION, "leak": LOW}),
    ("no_tape", {"skin": (FRAME,)}, {"skin": (replace(FRAME, inner_mm=0.0),)}),
    ("latex_clinic", {"skin": (WEALS,), "accessories": BELT}, {"skin": (WEALS,)}),
    ("look_for_product", {"skin": (WEALS,)}, {"skin": (WEALS,), "accessories": BELT}),
    ("no_creams", {"skin": (seen(SkinKind.ERYTHEMA),)}, {"skin": ()}),
    ("trim_hair", {"skin": (seen(SkinKind.HAIR_PUSTULES),)}, {"skin": ()}),
    ("gentle_peel", {"skin": (seen(SkinKind.STRIPPING, outer_mm=20.0),)}, {"skin": (raw(),)}),
    ("wear_longer", {"skin": (seen(SkinKind.STRIPPING, outer_mm=20.0),)},
     {"skin": (seen(SkinKind.STRIPPING, outer_mm=20.0), raw())}),
    ("ask_dermatology", {"skin": (seen(SkinKind.SCALE),)}, {"skin": (seen(SkinKind.ERYTHEMA),)}),
    ("urine_acid", CRYSTALS, {**CRYSTALS, "urine_signs": frozenset({UrineSign.STRONG_ODOUR})}),
    ("granuloma_review", {"skin": (seen(SkinKind.GRANULOMA),)},
     {"skin": (seen(SkinKind.HARD_LUMP),)}),
    ("cut_for_both", {"skin": (seen(SkinKind.FISTULA, inner_mm=45.0, outer_mm=50.0),)},
     {"skin": (seen(SkinKind.FISTULA, inner_mm=46.0, outer_mm=50.0),)}),
    ("support_fitting", {**BULGE, **LEVELLED}, {**BULGE, "leak": LOW}),
    ("support_fitting", {**BULGE, **LEVELLED}, {**BULGE, **LEVELLED, "person": LIVER}),
    ("support_cough", {**BULGE, "leak": LOW}, {"bulges": (), "leak": LOW}),
    ("cut_ahead", {"person": WEAK, "leak": LOW}, {"leak": LOW}),
    ("fluids", {"volume_ml_24h": 1000.0}, {"volume_ml_24h": 999.0}),
    ("measure_weekly", {"days_since_surgery": 55, "leak": LOW},
     {"days_since_surgery": 56, "leak": LOW}),
    ("open_lift_rim", {**FLUSH, "days_since_surgery": 30}, {**FLUSH, "days_since_surgery": 31}),
    ("open_treat_yeast", {"skin": (seen(SkinKind.SATELLITES),)}, {"skin": (raw(),)}),
    ("open_absorb_moisture", {"skin": (raw(),), "person": BLIND}, {"skin": (raw(),)}),
    ("open_absorb_moisture", {"skin": (raw(),), "person": BLIND},
     {"skin": (raw(),), "person": replace(BLIND, changed_by=ChangedBy.WITH_HELP)}),
    ("open_absorb_moisture", {"skin": (raw(),), "person": BLIND},
     {"skin": (raw(),),
      "person": replace(BLIND, sensitivities=frozenset({Material.POWDER}))}),
    ("step_surgeon", {**FLUSH, **EVERYTHING}, FLUSH),
    ("step_narrow", {**CREASED, **SOFT}, CREASED),
    ("step_flap", {**SLIPPED, "accessories": frozenset({Accessory.RING})}, SLIPPED),
    ("step_one_piece", {**ONE_HAND, **PRE_CUT, "leak": LOW}, {**PRE_CUT, "leak": LOW}),
    ("on_trial", FLUSH, {}),
    ("log_next_ten", {"wear": (ONE_LEAK, *SEVEN_HELD)}, {"wear": SEVEN_HELD}),
    ("change_sooner", {"erosion": LOW}, {"erosion": LOW, "leak": LOW}),
    # One line says when to change: a day that is set comes before a day sooner.
    ("change_sooner", {"erosion": LOW}, {"erosion": LOW, "skin": (raw(),)}),
    ("wear_as_now", {**leaked(3, 5.0)}, {**leaked(3, 5.0), "erosion": LOW}),
    ("move_load", {"load": LOW}, {"load": ClockHours()}),
    ("place_centred", {"placed_towards": 6}, {}),
    ("softer_stool", {"kind": StomaKind.COLOSTOMY, "present": THICK},
     {"kind": StomaKind.COLOSTOMY}),
    # Nothing more to drink or eat for somebody who may not.
    ("softer_stool", {"present": THICK}, {"present": THICK | {Symptom.VOMITING}}),
    ("softer_stool", {"present": THICK}, {"present": THICK, "volume_ml_24h": 2000.0}),
    ("cover_tear", {"skin": (seen(SkinKind.STRIPPING),)}, {"skin": (raw(),)}),
    ("meanwhile", {"colour": Colour.BLACK_BROWN_GREY}, {"colour": Colour.PINK_RED}),
    ("care_plan", {"bowel_outside": True, "person": DYING}, {"bowel_outside": True}),
    ("take_along", {"colour": Colour.BLACK_BROWN_GREY}, {"colour": Colour.PINK_RED}),
    ("cover_moist", {"bowel_outside": True}, {"colour": Colour.BLACK_BROWN_GREY}),
    ("garment_off", {"bulges": (Bulge(ClockHours.of(3), painful=True),)},
     {"bulges": (Bulge(ClockHours.of(3), reducible=True, painful=False),)}),
    ("loosen_opening", {"colour": Colour.BLACK_BROWN_GREY}, {"bowel_outside": True}),
    ("nothing_by_mouth", {"present": SICK}, {"colour": Colour.BLACK_BROWN_GREY}),
    ("no_solid_food", {"present": CRAMPS, "hours_without_output": 0.0}, {"present": SICK}),
    ("sip", {"volume_ml_24h": 2000.0}, {"volume_ml_24h": 900.0}),
    ("sips_only", {"colour": Colour.BLACK_BROWN_GREY}, {"present": SICK}),
    ("blockage_first_aid", FIRST_AID, {**FIRST_AID, "hours_without_output": None}),
    ("blockage_first_aid", {**FIRST_AID, "hours_without_output": 0.5},
     {**FIRST_AID, "hours_without_output": 0.5, "vitals": Vitals(temperature_c=38.4)}),
    ("slow_bowel", NO_STOOL, {**NO_STOOL, "hours_without_output": 24.0}),
]  # fmt: skip


def advised(changes: Changes, history: History | None = None) -> dict[str, str]:
    plan = recommend(well(**changes), history or History())
    return {r.key: r.text for r in plan.recommendations}


@pytest.mark.parametrize(("key", "with_it", "without"), ROWS)
def test_advice(key: str, with_it: Changes, without: Changes) -> None:
    history = NEW_TRIAL if key == "on_trial" else None
    assert key in advised(with_it, history)
    assert key not in advised(without)


def test_every_piece_of_advice_has_its_example() -> None:
    """Situations have theirs in ``test_situations.py``."""
    assert {rule.key for rule in ADVICE} - EXAMPLES == {key for key, *_ in ROWS}


def test_a_barred_dome_asks_for_the_assessment_only_where_that_opens_it() -> None:
    """The reader may be the specialist: the visit has a field to record the assessment in."""
    early = advised({**FLUSH, "days_since_surgery": 20})["open_lift_rim"]
    assert "if you are that specialist, record it at this visit" in early
    veins = advised({**FLUSH, "person": LIVER})["open_lift_rim"]
    assert "record it" not in veins
    assert "must not be used while these reasons last" in veins
    assessed = History(specialist_convexity_assessment=True)
    plan = recommend(well(**FLUSH, days_since_surgery=20), assessed)
    assert "soft_convex_shallow" in plan.supplies


def test_no_wording_sends_a_stoma_nurse_to_a_stoma_nurse() -> None:
    """What is her own work is put on her own list; who else is meant is somebody else."""
    for found in (well(skin=(raw(outer_mm=30.0),)), well(skin=(seen(SkinKind.ULCER),))):
        flags = situation(found).flags
        assert "your own list, if that is you" in " ".join(flag.refer_to for flag in flags)
    said = " ".join(advised({**FLUSH, "days_since_surgery": 20}).values())
    assert "specialised in ostomy care" not in said


# --- what presses is not started on the quiet where veins cannot be excluded -----------------
PRESSING = {"firm_convex_moderate": {**FLUSH, **EVERYTHING, "convex_depth": ConvexDepth.MODERATE,
                                     "compressibility": Degree.MORE,
                                     "accessories": frozenset({Accessory.RING})},
            "belt": {**FLUSH, **EVERYTHING, "convex_depth": ConvexDepth.MODERATE,
                     "accessories": frozenset({Accessory.RING})}}  # fmt: skip


@pytest.mark.parametrize("key", sorted(PRESSING))
def test_liver_disease_not_recorded_is_named_on_the_very_items(key: str) -> None:
    def caution(**changes: Any) -> str:
        plan = recommend(well(**PRESSING[key], **changes))
        return next(r for r in plan.recommendations if r.key == key).caution or ""

    assert "Liver disease is not recorded" in caution()
    none = Person(sensitivities=frozenset(), has_not=frozenset({Condition.LIVER_DISEASE}))
    assert caution(person=none)
    assert "Liver disease" not in caution(person=none)
    assert key not in recommend(well(**PRESSING[key], person=LIVER)).supplies


def test_what_does_not_press_or_is_worn_already_gets_no_such_caution() -> None:
    cautions = [r.caution or "" for r in recommend(leaking()).recommendations]
    assert not any("Liver disease" in text for text in cautions)
    worn_belt = recommend(well(accessories=frozenset({Accessory.BELT})))
    assert not any("Liver disease" in (r.caution or "") for r in worn_belt.recommendations)
