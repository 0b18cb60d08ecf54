"""What the stoma gives, and how the person is today."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Consistency(StrEnum):
    WATERY = "watery"
    LIQUID = "liquid"
    PASTE = "paste"
    SOFT = "soft"
    FORMED = "formed"
    URINE = "urine"


class Symptom(StrEnum):
    """Asked today; each can be present, absent or not asked."""

    MILD_CRAMPS = "mild_cramps"
    SEVERE_CRAMPS = "severe_cramps"
    NAUSEA = "nausea"
    VOMITING = "vomiting"
    SWOLLEN_ABDOMEN = "swollen_abdomen"
    DIZZY_ON_STANDING = "dizzy_on_standing"
    CONFUSION = "confusion"
    LITTLE_URINE = "little_urine"
    FEVER = "fever"
    LOIN_PAIN = "loin_pain"
    FAINTNESS = "faintness"
    FACE_SWELLING_OR_WHEEZE = "face_swelling_or_wheeze"
    ABDOMINAL_PAIN = "abdominal_pain"
    CONSTANT_SEVERE_PAIN = "constant_severe_pain"
    RISING_PAIN = "rising_pain"
    RIGID_ABDOMEN = "rigid_abdomen"
    NO_GAS = "no_gas"
    SPURTING_OUTPUT = "spurting_output"
    HARD_MASS = "hard_mass"
    RIBBON_STOOL = "ribbon_stool"
    EXPLOSIVE_OUTPUT = "explosive_output"
    THICK_STICKING_STOOL = "thick_sticking_stool"
    BALLOONING = "ballooning"
    RIGORS = "rigors"
    LOOKS_ILL = "looks_ill"
    MOTTLED_SKIN = "mottled_skin"
    THIRST = "thirst"
    DRY_MOUTH = "dry_mouth"
    DARK_URINE = "dark_urine"
    TIRED = "tired"
    LIMB_CRAMPS = "limb_cramps"
    LIMB_WEAKNESS = "limb_weakness"
    PALPITATIONS = "palpitations"
    CANNOT_KEEP_FLUIDS = "cannot_keep_fluids"
    RESTLESS = "restless"
    DROWSY = "drowsy"
    PALE = "pale"
    PAIN_BEFORE_OUTPUT = "pain_before_output"
    TRICKLE_ONLY = "trickle_only"
    BLOCKING_FOOD = "blocking_food"
    FAECULENT_VOMIT = "faeculent_vomit"


class UrineSign(StrEnum):
    CRYSTALS = "crystals"
    STRONG_ODOUR = "strong_odour"
    BLOOD = "blood"
    PINK = "pink"
    CLOTS = "clots"
    CLOUDY = "cloudy"
    THIN_LONG_STREAM = "thin_long_stream"


class BloodTests(StrEnum):
    """Whether blood was taken today, and whether what it showed is known."""

    NOT_TAKEN = "not_taken"
    TAKEN = "taken"
    RESULT_KNOWN = "result_known"


class PouchBlood(StrEnum):
    """Red or black in what the pouch holds."""

    NONE = "none"
    FOOD_COLOUR = "food_colour"
    ONCE = "once"
    SEVERAL_EMPTIES = "several_empties"
    CLOTS = "clots"


class Discharge(StrEnum):
    """From the bowel left behind, or the resting opening."""

    NONE = "none"
    MUCUS = "mucus"
    OLD_STOOL_ONCE = "old_stool_once"
    STOOL_AGAIN = "stool_again"
    PUS = "pus"
    BLOOD = "blood"


@dataclass(frozen=True, slots=True)
class Vitals:
    """Measured at this visit. ``highest_c``: the highest temperature of the last 24 hours,
    measured elsewhere. ``antipyretic_hours``: hours since something that lowers fever was taken.
    Per minute, mmHg."""

    temperature_c: float | None = None
    highest_c: float | None = None
    pulse: float | None = None
    breaths: float | None = None
    systolic_mmhg: float | None = None
    antipyretic_hours: float | None = None


@dataclass(frozen=True, slots=True)
class Output:
    """``urine_signs`` None: not recorded; empty: none seen. ``urine_signs_not_asked``: not in the
    list when it was charted, so neither seen nor absent. Pain score 0-10.

    ``urine_ml_24h`` and ``hours_without_urine``: passed by the bladder, for a bowel stoma (of a
    urostomy, ``volume_ml_24h`` and ``hours_without_output`` are the urine).
    ``usual_ml_24h``: this person's own mean of the last 7 days before. ``days_at_volume``: days in
    a row, today included, on which the output was in today's range. ``blood_tests``: today's.
    """

    volume_ml_24h: float | None = None
    consistency: Consistency | None = None
    watery_for_hours: float | None = None
    hours_without_output: float | None = None
    urine_signs: frozenset[UrineSign] | None = None
    present: frozenset[Symptom] = frozenset()
    absent: frozenset[Symptom] = frozenset()
    pain_0_10: int | None = None
    vitals: Vitals = Vitals()
    urine_ml_24h: float | None = None
    hours_without_urine: float | None = None
    usual_ml_24h: float | None = None
    days_at_volume: float | None = None
    pouch_blood: PouchBlood | None = None
    discharge: Discharge | None = None
    tablets_whole: bool | None = None
    urine_ph: float | None = None
    stools_per_day: float | None = None
    stents: int | None = None
    stent_out_early: bool | None = None
    urine_signs_not_asked: frozenset[UrineSign] = frozenset()
    blood_tests: BloodTests | None = None
