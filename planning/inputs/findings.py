"""What one visit found at one stoma: frozen facts in, nothing derived, nothing defaulted.

``None`` always means *not recorded*. An empty tuple or set means *looked for, none found*.
Lengths are mm, volumes mL/24 h, times days unless a name says otherwise.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from planning.inputs.clock import ClockHours


# --- the person -----------------------------------------------------------------------------
class Material(StrEnum):
    """What a person may react to."""

    BARRIER_ADHESIVE = "barrier_adhesive"
    PROTECTANT = "protectant"
    PASTE = "paste"
    POWDER = "powder"
    RING = "ring"
    TAPE = "tape"
    LATEX = "latex"
    ALCOHOL = "alcohol"
    ADHESIVE_REMOVER = "adhesive_remover"
    OTHER = "other"


class Condition(StrEnum):
    """Standing illness or treatment that changes the plan."""

    LIVER_DISEASE = "liver_disease"
    INFLAMMATORY_BOWEL_DISEASE = "inflammatory_bowel_disease"
    DIABETES = "diabetes"
    IMMUNOSUPPRESSED = "immunosuppressed"
    ANTICOAGULANT = "anticoagulant"
    RADIOTHERAPY_ABDOMEN = "radiotherapy_abdomen"
    PSORIASIS_OR_ECZEMA = "psoriasis_or_eczema"
    RECENT_ANTIBIOTICS = "recent_antibiotics"


class Ability(StrEnum):
    """Hands (``ONE_HAND`` only there) or eyesight."""

    GOOD = "good"
    LIMITED = "limited"
    ONE_HAND = "one_hand"
    NONE = "none"


class ChangedBy(StrEnum):
    SELF = "self"
    WITH_HELP = "with_help"
    CARER = "carer"
    NURSE = "nurse"


@dataclass(frozen=True, slots=True)
class Person:
    """The wearer. A condition in neither set is not known. ``age_years``: completed years on the
    day of the visit. ``weight_kg``: weighed at the visit."""

    sensitivities: frozenset[Material] | None = None
    has: frozenset[Condition] = frozenset()
    has_not: frozenset[Condition] = frozenset()
    dexterity: Ability | None = None
    eyesight: Ability | None = None
    changed_by: ChangedBy | None = None
    age_years: int | None = None
    weight_kg: float | None = None

    def condition(self, condition: Condition) -> bool | None:
        """True, False or None (not known)."""
        if condition in self.has:
            return True
        return False if condition in self.has_not else None


# --- the stoma ------------------------------------------------------------------------------
class StomaKind(StrEnum):
    ILEOSTOMY = "ileostomy"
    JEJUNOSTOMY = "jejunostomy"
    COLOSTOMY = "colostomy"
    UROSTOMY = "urostomy"


class Construction(StrEnum):
    END = "end"
    LOOP = "loop"
    DOUBLE_BARREL = "double_barrel"


@dataclass(frozen=True, slots=True)
class Stoma:
    kind: StomaKind
    construction: Construction | None = None
    days_since_surgery: int | None = None
    rod_in_place: bool | None = None


class LumenPosition(StrEnum):
    CENTRE = "centre"
    OFF_CENTRE = "off_centre"
    SKIN_LEVEL = "skin_level"


class Colour(StrEnum):
    """Of the mucosa."""

    PINK_RED = "pink_red"
    PALE = "pale"
    DUSKY = "dusky"
    PURPLE = "purple"
    BLACK_BROWN_GREY = "black_brown_grey"
    YELLOW_SLOUGH = "yellow_slough"


class Turgor(StrEnum):
    """How the mucosa looks and feels."""

    MOIST_SOFT = "moist_soft"
    DRY = "dry"
    HARD = "hard"
    COLD = "cold"
    FLABBY = "flabby"


class Oedema(StrEnum):
    NONE = "none"
    MILD = "mild"
    MARKED = "marked"


class Bleeding(StrEnum):
    NONE = "none"
    ON_WIPING = "on_wiping"
    OOZE_AT_JUNCTION = "ooze_at_junction"
    SEVERAL_EMPTIES = "several_empties"
    FROM_LUMEN = "from_lumen"
    SPURTING_OR_UNSTOPPED = "spurting_or_unstopped"


@dataclass(frozen=True, slots=True)
class Separation:
    """Mucocutaneous junction apart. ``depth_mm`` below the skin, effluent beneath it."""

    hours: ClockHours
    depth_mm: float | None = None
    base_visible: bool | None = None
    effluent_under_skin: bool | None = None


@dataclass(frozen=True, slots=True)
class Prolapse:
    """Bowel telescoped out, ``extra_length_mm`` beyond this stoma's usual."""

    extra_length_mm: float | None = None
    reducible: bool | None = None
    painful: bool | None = None


@dataclass(frozen=True, slots=True)
class Measurement:
    """Size at the base where stoma meets skin; protrusion lying or sitting, the lower one.

    ``length_mm`` runs 12-6, ``width_mm`` 9-3, unless ``axis_hour`` (1-6) turns the length axis.
    ``radii_mm`` for an irregular stoma: centre to edge at hours 1..12, in that order.
    ``junction`` None: not recorded; (): intact. ``prolapse`` None: not recorded; (): none.
    ``length_error_mm`` and ``width_error_mm``: either way (about 95 %), where the size was taken
    from a photo; None: measured on the stoma, or not known.
    """

    length_mm: float | None = None
    width_mm: float | None = None
    axis_hour: int | None = None
    protrusion_mm: float | None = None
    radii_mm: tuple[float, ...] | None = None
    widest_mm: float | None = None
    lumen: LumenPosition | None = None
    lumen_hour: int | None = None
    colour: Colour | None = None
    turgor: Turgor | None = None
    oedema: Oedema | None = None
    junction: tuple[Separation, ...] | None = None
    prolapse: tuple[Prolapse, ...] | None = None
    bleeding: Bleeding | None = None
    deep_cut: bool | None = None
    length_error_mm: float | None = None
    width_error_mm: float | None = None


# --- the skin -------------------------------------------------------------------------------
class SkinKind(StrEnum):
    """What is seen, not why."""

    ERYTHEMA = "erythema"
    EROSION = "erosion"
    ULCER = "ulcer"
    UNDERMINED_ULCER = "undermined_ulcer"
    BLISTERS = "blisters"
    SATELLITES = "satellites"
    HAIR_PUSTULES = "hair_pustules"
    MACERATION = "maceration"
    STRIPPING = "stripping"
    PRESSURE_MARK = "pressure_mark"
    WARTY = "warty"
    GRANULOMA = "granuloma"
    HARD_LUMP = "hard_lump"
    DILATED_VEINS = "dilated_veins"
    SCALE = "scale"
    SPREADING_WARMTH = "spreading_warmth"
    ABSCESS = "abscess"
    FISTULA = "fistula"


@dataclass(frozen=True, slots=True)
class SkinFinding:
    """One kind at some hours, from ``inner_mm`` to ``outer_mm`` beyond the stoma's edge.

    ``moist``: weeping. ``product_outline``: its edge copies a product. ``enlarging``: quickly.
    """

    kind: SkinKind
    hours: ClockHours
    inner_mm: float | None = None
    outer_mm: float | None = None
    itch: bool | None = None
    pain: bool | None = None
    burning: bool | None = None
    moist: bool | None = None
    product_outline: bool | None = None
    enlarging: bool | None = None


# --- the abdomen ----------------------------------------------------------------------------
class Contour(StrEnum):
    FLAT = "flat"
    ROUNDED = "rounded"
    PENDULOUS = "pendulous"
    HOLLOW = "hollow"


class Firmness(StrEnum):
    SOFT = "soft"
    FIRM = "firm"


class Posture(StrEnum):
    LYING = "lying"
    SITTING = "sitting"
    STANDING = "standing"
    BENDING = "bending"


@dataclass(frozen=True, slots=True)
class Crease:
    """A crease, scar or dip reaching the stoma at ``hours``; shown by the named postures."""

    hours: ClockHours
    depth_mm: float | None = None
    postures: frozenset[Posture] | None = None


@dataclass(frozen=True, slots=True)
class Bulge:
    """A bulge beside the stoma: height above the skin plane and width, mm."""

    hours: ClockHours
    height_mm: float | None = None
    width_mm: float | None = None
    reducible: bool | None = None
    painful: bool | None = None


@dataclass(frozen=True, slots=True)
class Abdomen:
    contour: Contour | None = None
    firmness: Firmness | None = None
    creases: tuple[Crease, ...] | None = None
    bulges: tuple[Bulge, ...] | None = None


# --- output and how the person is -----------------------------------------------------------
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


class UrineSign(StrEnum):
    CRYSTALS = "crystals"
    STRONG_ODOUR = "strong_odour"
    BLOOD = "blood"


@dataclass(frozen=True, slots=True)
class Output:
    """``urine_signs`` None: not recorded; empty: none seen. Pain score 0-10."""

    volume_ml_24h: float | None = None
    consistency: Consistency | None = None
    watery_for_hours: float | None = None
    hours_without_output: float | None = None
    urine_signs: frozenset[UrineSign] | None = None
    present: frozenset[Symptom] = frozenset()
    absent: frozenset[Symptom] = frozenset()
    pain_0_10: int | None = None


# --- what is worn ---------------------------------------------------------------------------
class Pieces(StrEnum):
    ONE = "one_piece"
    TWO = "two_piece"


class Profile(StrEnum):
    FLAT = "flat"
    CONVEX = "convex"


class Degree(StrEnum):
    """Compressibility and flexibility are ordinal, with no agreed unit (Beitz 2025)."""

    MORE = "more"
    LESS = "less"


class OpeningKind(StrEnum):
    PRE_CUT = "pre_cut"
    CUT_TO_FIT = "cut_to_fit"
    MOULDABLE = "mouldable"


class PouchKind(StrEnum):
    DRAINABLE = "drainable"
    CLOSED = "closed"
    TAP = "tap"
    HIGH_OUTPUT = "high_output"


class Accessory(StrEnum):
    RING = "ring"
    HALF_RING = "half_ring"
    STRIP = "strip"
    PASTE = "paste"
    POWDER = "powder"
    ANTIFUNGAL_POWDER = "antifungal_powder"
    PROTECTANT = "protectant"
    ADHESIVE_REMOVER = "adhesive_remover"
    BELT = "belt"
    SUPPORT_GARMENT = "support_garment"
    THICKENER = "thickener"
    NIGHT_BAG = "night_bag"


@dataclass(frozen=True, slots=True)
class PouchingSystem:
    """What the person arrived in, and the reading of the used barrier.

    ``erosion`` where the barrier melted, ``leak`` where effluent got under it:
    None not read, ``ClockHours()`` read and intact. ``accessories`` None: not recorded.
    """

    pieces: Pieces | None = None
    profile: Profile | None = None
    convex_depth_mm: float | None = None
    compressibility: Degree | None = None
    flexibility: Degree | None = None
    opening_length_mm: float | None = None
    opening_width_mm: float | None = None
    opening_kind: OpeningKind | None = None
    pouch: PouchKind | None = None
    accessories: frozenset[Accessory] | None = None
    erosion: ClockHours | None = None
    leak: ClockHours | None = None


class RemovalReason(StrEnum):
    PLANNED = "planned"
    LEAK = "leak"
    ITCH_OR_PAIN = "itch_or_pain"
    FELL_OFF = "fell_off"


@dataclass(frozen=True, slots=True)
class WearEpisode:
    """One barrier: days worn and why it came off (None: still on)."""

    days: float
    reason: RemovalReason | None


@dataclass(frozen=True, slots=True)
class Findings:
    """Everything one visit found at one stoma. ``wear`` None: no log; (): nothing worn since.

    ``wear_left_out``: rows of the log that contradict one another and so are not in ``wear``.
    """

    person: Person
    stoma: Stoma
    measurement: Measurement = Measurement()
    skin: tuple[SkinFinding, ...] | None = None
    abdomen: Abdomen = Abdomen()
    output: Output = Output()
    system: PouchingSystem | None = None
    wear: tuple[WearEpisode, ...] | None = None
    wear_left_out: int = 0


@dataclass(frozen=True, slots=True)
class Trial:
    """One earlier plan as worn: the supplies' keys and how it went (None: cannot tell)."""

    supplies: frozenset[str]
    helped: bool | None = None
    hurt: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Weighing:
    """One earlier weight, so many whole days before this visit (0: the same day)."""

    days_before: int
    kg: float


@dataclass(frozen=True, slots=True)
class History:
    """What came before, newest last. ``specialist_convexity_assessment``: recorded and signed.
    ``weighings``: of the person at every signed visit, whichever stoma it was for."""

    previous: tuple[Findings, ...] = ()
    trials: tuple[Trial, ...] = ()
    specialist_convexity_assessment: bool = False
    convexity_reason: str = ""
    prescriber_agreed_antifungal: bool = False
    weighings: tuple[Weighing, ...] = ()
