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
    POUCH_COVER = "pouch_cover"
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
    CHEMOTHERAPY_RECENT = "chemotherapy_recent"
    NEUTROPENIA = "neutropenia"
    TRANSPLANT = "transplant"
    LOW_PLATELETS = "low_platelets"
    KIDNEY_DISEASE = "kidney_disease"
    HEART_FAILURE = "heart_failure"
    CANCER = "cancer"
    SHORT_BOWEL = "short_bowel"
    CENTRAL_LINE = "central_line"
    CIRRHOSIS = "cirrhosis"
    PORTAL_HYPERTENSION = "portal_hypertension"
    RADIOTHERAPY_NOW = "radiotherapy_now"
    PREGNANT = "pregnant"
    FRAIL = "frail"
    DEMENTIA = "dementia"
    LAST_WEEKS_OF_LIFE = "last_weeks_of_life"


class Medicine(StrEnum):
    """What is taken, by class. Recorded and asked about; the planner doses nothing."""

    OPIOID = "opioid"
    IRON = "iron"
    ANTICHOLINERGIC = "anticholinergic"
    LAXATIVE = "laxative"
    MAGNESIUM_ANTACID = "magnesium_antacid"
    ANTIDIARRHOEAL = "antidiarrhoeal"
    ACID_REDUCER = "acid_reducer"
    DIURETIC = "diuretic"
    ACE_INHIBITOR_OR_ARB = "ace_inhibitor_or_arb"
    SGLT2_INHIBITOR = "sglt2_inhibitor"
    METFORMIN = "metformin"
    NSAID = "nsaid"
    COATED_OR_SLOW_RELEASE = "coated_or_slow_release"
    NICORANDIL = "nicorandil"
    STEROID = "steroid"
    BIOLOGIC = "biologic"
    ANTICOAGULANT = "anticoagulant"
    ANTIPLATELET = "antiplatelet"
    ANTIBIOTIC = "antibiotic"
    NARROW_RANGE = "narrow_range"


class ChildSign(StrEnum):
    """How a child who dries out looks, asked under 16; each present, absent or not asked."""

    FEWER_WET_NAPPIES = "fewer_wet_nappies"
    NO_WET_NAPPY_6_HOURS = "no_wet_nappy_6_hours"
    SUNKEN_EYES_OR_FONTANELLE = "sunken_eyes_or_fontanelle"
    NO_TEARS = "no_tears"
    DRY_MOUTH = "dry_mouth"
    COLD_HANDS = "cold_hands"
    SLOW_REFILL = "slow_refill"
    SLEEPY = "sleepy"
    SALT_CRAVING = "salt_craving"
    NOT_GAINING = "not_gaining"
    GREEN_VOMIT = "green_vomit"


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
    day of the visit. ``weight_kg``: weighed at the visit. ``medicines`` None: the list is not
    known; empty: none are taken. ``pregnant_weeks``: completed weeks, where ``PREGNANT`` is
    marked."""

    sensitivities: frozenset[Material] | None = None
    has: frozenset[Condition] = frozenset()
    has_not: frozenset[Condition] = frozenset()
    dexterity: Ability | None = None
    eyesight: Ability | None = None
    changed_by: ChangedBy | None = None
    age_years: int | None = None
    weight_kg: float | None = None
    medicines: frozenset[Medicine] | None = None
    pregnant_weeks: int | None = None
    child_present: frozenset[ChildSign] = frozenset()
    child_absent: frozenset[ChildSign] = frozenset()

    def condition(self, condition: Condition) -> bool | None:
        """True, False or None (not known)."""
        if condition in self.has:
            return True
        return False if condition in self.has_not else None

    def takes(self, *medicines: Medicine) -> bool | None:
        """Any of these; None where the list of medicines is not known."""
        return None if self.medicines is None else bool(self.medicines & set(medicines))


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


class Calibre(StrEnum):
    """What the lumen admits, felt by someone trained to."""

    INDEX_FINGER = "index_finger"
    LITTLE_FINGER = "little_finger"
    FINGERTIP = "fingertip"
    NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class ColourPart:
    """A part of the stoma whose colour differs from the rest."""

    colour: Colour
    hours: ClockHours


@dataclass(frozen=True, slots=True)
class Separation:
    """Mucocutaneous junction apart. ``depth_mm`` below the skin, effluent beneath it.

    ``contaminated``: stool or urine goes into it, or pus comes out. ``fascia_seen``: fascia or
    bowel at its base.
    """

    hours: ClockHours
    depth_mm: float | None = None
    base_visible: bool | None = None
    effluent_under_skin: bool | None = None
    contaminated: bool | None = None
    fascia_seen: bool | None = None


@dataclass(frozen=True, slots=True)
class Prolapse:
    """Bowel telescoped out, ``extra_length_mm`` beyond this stoma's usual. ``new``: not known
    before. ``growing``: its swelling grows."""

    extra_length_mm: float | None = None
    reducible: bool | None = None
    painful: bool | None = None
    new: bool | None = None
    growing: bool | None = None


@dataclass(frozen=True, slots=True)
class LoopOpenings:
    """Which opening of a loop works: the height (mm) that counts is that of the working one."""

    working_mm: float | None = None
    working_hour: int | None = None
    resting_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Measurement:
    """Size at the base where stoma meets skin; protrusion lying or sitting, the lower one.

    ``length_mm`` runs 12-6, ``width_mm`` 9-3, unless ``axis_hour`` (1-6) turns the length axis.
    ``radii_mm`` for an irregular stoma: centre to edge at hours 1..12, in that order.
    ``junction`` None: not recorded; (): intact. ``prolapse`` None: not recorded; (): none.
    ``length_error_mm`` and ``width_error_mm``: either way (about 95 %), where the size was taken
    from a photo; None: measured on the stoma, or not known.
    ``colour`` and ``turgor``: the worst seen; ``colour_parts`` where they differ round the stoma.
    ``colour_known``: a surgeon has recorded this colour, and it has not changed since.
    ``bowel_outside``: bowel or fat comes out through the gap beside the stoma.
    ``protrusion_sitting_mm`` and ``protrusion_standing_mm``: the height in that posture.
    ``bleeding_stopped_days``: days since a heavier bleed that has stopped.
    ``rubbed``: a cut or pale line on the mucosa.
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
    colour_parts: tuple[ColourPart, ...] | None = None
    colour_known: bool | None = None
    bleeds_on_touch: bool | None = None
    calibre: Calibre | None = None
    bowel_outside: bool | None = None
    loop: LoopOpenings | None = None
    protrusion_sitting_mm: float | None = None
    protrusion_standing_mm: float | None = None
    bleeding_stopped_days: float | None = None
    rubbed: bool | None = None
    bleeding_stops_min: float | None = None


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
    WEAL = "weal"
    PIGMENTED_SPOT = "pigmented_spot"
    BRUISE = "bruise"
    SETTLED_SCAR = "settled_scar"


class Product(StrEnum):
    """What lies on the skin, by where it lies."""

    BARRIER = "barrier"
    TAPE_BORDER = "tape_border"
    RING = "ring"
    PASTE = "paste"
    POWDER = "powder"
    FILM = "film"
    REMOVER = "remover"
    BELT = "belt"
    GARMENT = "garment"
    POUCH = "pouch"
    POUCH_COVER = "pouch_cover"


@dataclass(frozen=True, slots=True)
class SkinFinding:
    """One kind at some hours, from ``inner_mm`` to ``outer_mm`` beyond the stoma's edge.

    ``moist``: weeping. ``product_outline``: its edge copies a product. ``enlarging``: quickly.
    ``outline_of``: which product. ``hours_to_spread``: time in which it visibly spread.
    ``fades_min``: minutes until a mark has gone after the pressure is off; ``stays`` at least so
    long where it has not gone. ``changing``: grew, changed colour or bled since it was last seen.
    ``numb_or_crackling``: numb, crackling or grey-purple. ``minutes_after_contact``: until weals
    came. ``days``: how long it has been there. ``across_mm``: its largest width.
    ``flat_edge``: punched out, its edge not undermined. ``pain_0_10``: of this place.
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
    outline_of: Product | None = None
    hours_to_spread: float | None = None
    fades_min: float | None = None
    stays_min: float | None = None
    changing: bool | None = None
    numb_or_crackling: bool | None = None
    minutes_after_contact: float | None = None
    days: float | None = None
    across_mm: float | None = None
    flat_edge: bool | None = None
    pain_0_10: int | None = None


@dataclass(frozen=True, slots=True)
class Wound:
    """An open wound near the stoma, ``distance_mm`` from its edge to the stoma's."""

    hours: ClockHours
    distance_mm: float | None = None
    length_mm: float | None = None
    width_mm: float | None = None
    depth_mm: float | None = None
    pus: bool | None = None
    effluent_reaches: bool | None = None
    comes_free: bool | None = None


@dataclass(frozen=True, slots=True)
class OtherStoma:
    """Another stoma on the same abdomen, ``distance_mm`` from edge to edge. ``rests``: a mucous
    fistula or another opening that gives only mucus."""

    hours: ClockHours
    distance_mm: float | None = None
    length_mm: float | None = None
    width_mm: float | None = None
    rests: bool | None = None


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
    """A bulge beside the stoma: height above the skin plane and width, mm. ``new``: not known
    before. ``hard``, ``skin_changed``: hard to the touch; red or dark skin over it."""

    hours: ClockHours
    height_mm: float | None = None
    width_mm: float | None = None
    reducible: bool | None = None
    painful: bool | None = None
    new: bool | None = None
    hard: bool | None = None
    skin_changed: bool | None = None


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


# --- what is worn ---------------------------------------------------------------------------
class ConvexDepth(StrEnum):
    """The depth of a dome that is known by its class alone."""

    SHALLOW = "shallow"
    MODERATE = "moderate"
    DEEP = "deep"


@dataclass(frozen=True, slots=True)
class LeakCount:
    """Leaks among the last barriers, counted without their days."""

    leaks: int
    barriers: int


class Pieces(StrEnum):
    ONE = "one_piece"
    TWO = "two_piece"


class Profile(StrEnum):
    FLAT = "flat"
    CONVEX = "convex"
    CONCAVE = "concave"


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
    TAPE = "tape"
    POUCH_COVER = "pouch_cover"
    LUBRICANT = "lubricant"


@dataclass(frozen=True, slots=True)
class Begun:
    """When a product worn now was first used: ``days`` before this visit; None: not known."""

    product: Product
    days: float | None = None


@dataclass(frozen=True, slots=True)
class PouchingSystem:
    """What the person arrived in, and the reading of the used barrier.

    ``accessories_not_asked``: not in the list when it was charted, so neither worn nor not worn.
    ``erosion`` where the barrier melted, ``leak`` where effluent got under it:
    None not read, ``ClockHours()`` read and intact. ``accessories`` None: not recorded.
    ``belt_tight``: less than two fingers fit under it. ``load``: hours at which clothing, a strap
    or another load lies across the barrier. ``lifts``: where the barrier lifts, with or without a
    leak. ``placed_towards``: hour towards which it was put on off centre. ``presses``: the opening
    or coupling is tight on the stoma. ``leak_count`` and ``usual_wear_days``: counted or usual,
    where no log was kept.
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
    tape_border: bool | None = None
    begun: tuple[Begun, ...] | None = None
    belt_tight: bool | None = None
    load: ClockHours | None = None
    convex_depth: ConvexDepth | None = None
    lifts: ClockHours | None = None
    placed_towards: int | None = None
    presses: bool | None = None
    clear_pouch: bool | None = None
    filter: bool | None = None
    leak_count: LeakCount | None = None
    usual_wear_days: float | None = None
    accessories_not_asked: frozenset[Accessory] = frozenset()


class RemovalReason(StrEnum):
    PLANNED = "planned"
    LEAK = "leak"
    ITCH_OR_PAIN = "itch_or_pain"
    FELL_OFF = "fell_off"


class Circumstance(StrEnum):
    """What else was the matter when a barrier failed: not the system's doing, or over."""

    OVERFULL = "overfull"
    SOAKED = "soaked"
    PASSING_ILLNESS = "passing_illness"
    OTHER_SYSTEM = "other_system"
    PULLED_OFF = "pulled_off"
    LOAD_ACROSS = "load_across"


@dataclass(frozen=True, slots=True)
class WearEpisode:
    """One barrier: days worn and why it came off (None: still on)."""

    days: float
    reason: RemovalReason | None
    circumstance: Circumstance | None = None


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
    wounds: tuple[Wound, ...] | None = None
    other_stomas: tuple[OtherStoma, ...] | None = None


@dataclass(frozen=True, slots=True)
class Trial:
    """One earlier plan as worn: the supplies' keys and how it went (None: cannot tell).

    ``partly``: better, and still leaking or raw. ``barriers`` worn and ``days`` it ran, None: not
    recorded.
    """

    supplies: frozenset[str]
    helped: bool | None = None
    hurt: frozenset[str] = frozenset()
    partly: bool = False
    barriers: int | None = None
    days: float | None = None


class BaselineKind(StrEnum):
    """What can be long-standing and agreed for one stoma."""

    OUTPUT_TARGET = "output_target"
    PROLAPSE = "prolapse"
    HEIGHT = "height"
    BULGE = "bulge"
    VARICES = "varices"
    LIVER_DISEASE = "liver_disease"
    CONFUSION = "confusion"
    DARK_STOMA = "dark_stoma"
    THICK_SKIN = "thick_skin"
    HEALED_PYODERMA = "healed_pyoderma"
    CONTACT_BLEEDING = "contact_bleeding"
    PINK_URINE_OR_MUCUS = "pink_urine_or_mucus"
    SEPARATION = "separation"
    NARROW_LUMEN = "narrow_lumen"


@dataclass(frozen=True, slots=True)
class Baseline:
    """What a nurse or surgeon recorded as known and accepted; never made by the planner.

    ``value``: the agreed figure in the field's own unit (mL/24 h, mm), where there is one; ``low``
    the lower end of a range. ``review_in_days`` below 0: overdue, it no longer counts.
    ``reducible``: it went back when this was agreed.
    """

    kind: BaselineKind
    agreed_by: str
    value: float | None = None
    low: float | None = None
    urine_low_ml_24h: float | None = None
    reducible: bool | None = None
    since_days: float | None = None
    review_in_days: float | None = None

    @property
    def overdue(self) -> bool:
        """On the day of its review it still counts."""
        return self.review_in_days is not None and self.review_in_days < 0


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
    baselines: tuple[Baseline, ...] = ()

    def baseline(self, kind: BaselineKind) -> Baseline | None:
        """The one agreed last, while its review is not overdue; an older one never replaces it."""
        newest = next((b for b in reversed(self.baselines) if b.kind is kind), None)
        return None if newest is None or newest.overdue else newest

    def ever_agreed(self, kind: BaselineKind) -> bool:
        """Also where the review is overdue: a reason for caution does not lapse."""
        return any(b.kind is kind for b in self.baselines)
