"""The words the charting nurse chooses from.

Values are the planner's own (a test compares them one by one); labels are the trade's.
"""

from django.db.models import IntegerChoices, TextChoices


class VisitState(TextChoices):
    DRAFT = "draft", "Draft"
    SIGNED = "signed", "Signed"
    DISCARDED = "discarded", "Discarded"


class VisitReason(TextChoices):
    PLANNED = "planned", "Planned review"
    LEAK = "leak", "Leaking"
    SKIN = "skin", "Sore or itchy skin"
    AFTER_SURGERY = "after_surgery", "First review after surgery"
    CHANGE = "change", "Stoma or abdomen has changed"
    OTHER = "other", "Other"


class SectionKey(TextChoices):
    """Parts of the visit page, in the order the hands work."""

    SYSTEM = "system", "Used barrier and system"
    STOMA = "stoma", "Stoma"
    SKIN = "skin", "Skin"
    ABDOMEN = "abdomen", "Abdomen"
    OUTPUT = "output", "Output and how they are"
    WEAR = "wear", "Wear since last time"


# --- pouching system in use -----------------------------------------------------------------
class Pieces(TextChoices):
    ONE = "one_piece", "One-piece"
    TWO = "two_piece", "Two-piece"


class Profile(TextChoices):
    FLAT = "flat", "Flat"
    CONVEX = "convex", "Convex"


class Degree(TextChoices):
    MORE = "more", "More"
    LESS = "less", "Less"


class OpeningKind(TextChoices):
    PRE_CUT = "pre_cut", "Pre-cut"
    CUT_TO_FIT = "cut_to_fit", "Cut to fit"
    MOULDABLE = "mouldable", "Mouldable"


class PouchKind(TextChoices):
    DRAINABLE = "drainable", "Drainable"
    CLOSED = "closed", "Closed"
    TAP = "tap", "Tap (urine)"
    HIGH_OUTPUT = "high_output", "High output"


class Accessory(TextChoices):
    RING = "ring", "Ring"
    HALF_RING = "half_ring", "Half-ring"
    STRIP = "strip", "Strip"
    PASTE = "paste", "Paste"
    POWDER = "powder", "Powder"
    ANTIFUNGAL_POWDER = "antifungal_powder", "Antifungal powder"
    PROTECTANT = "protectant", "Protectant film"
    ADHESIVE_REMOVER = "adhesive_remover", "Adhesive remover"
    BELT = "belt", "Belt"
    SUPPORT_GARMENT = "support_garment", "Support garment"
    THICKENER = "thickener", "Thickener"
    NIGHT_BAG = "night_bag", "Night bag"


# --- stoma ----------------------------------------------------------------------------------
class Shape(TextChoices):
    ROUND = "round", "Round"
    OVAL = "oval", "Oval"
    IRREGULAR = "irregular", "Irregular"
    MUSHROOM = "mushroom", "Mushroom (tip wider than base)"


class LumenPosition(TextChoices):
    CENTRE = "centre", "Centre, at the tip"
    OFF_CENTRE = "off_centre", "Off-centre"
    SKIN_LEVEL = "skin_level", "At skin level"


class Colour(TextChoices):
    PINK_RED = "pink_red", "Pink to red"
    PALE = "pale", "Very pale"
    DUSKY = "dusky", "Dusky or maroon"
    PURPLE = "purple", "Purple"
    BLACK_BROWN_GREY = "black_brown_grey", "Black, brown or grey"
    YELLOW_SLOUGH = "yellow_slough", "Yellow slough"


class Turgor(TextChoices):
    MOIST_SOFT = "moist_soft", "Moist and soft"
    DRY = "dry", "Dry"
    HARD = "hard", "Hard"
    COLD = "cold", "Cold"
    FLABBY = "flabby", "Flabby"


class Oedema(TextChoices):
    NONE = "none", "None"
    MILD = "mild", "Mild"
    MARKED = "marked", "Marked"


class Bleeding(TextChoices):
    NONE = "none", "None"
    ON_WIPING = "on_wiping", "A little, on wiping"
    OOZE_AT_JUNCTION = "ooze_at_junction", "Oozing at the skin join"
    SEVERAL_EMPTIES = "several_empties", "Blood at several emptyings"
    FROM_LUMEN = "from_lumen", "From inside the stoma"
    SPURTING_OR_UNSTOPPED = "spurting_or_unstopped", "Spurting, or not stopped by 10 min pressure"


class Junction(TextChoices):
    INTACT = "intact", "Intact"
    SEPARATED = "separated", "Separated"


class Presence(TextChoices):
    NONE = "none", "None"
    PRESENT = "present", "Present"


# --- skin -----------------------------------------------------------------------------------
class SkinState(TextChoices):
    INTACT = "intact", "Intact all round"
    FINDINGS = "findings", "Findings below"


class SkinKind(TextChoices):
    ERYTHEMA = "erythema", "Redness, skin closed"
    EROSION = "erosion", "Raw, shallow erosion"
    ULCER = "ulcer", "Ulcer"
    UNDERMINED_ULCER = "undermined_ulcer", "Ulcer with violet, undermined edge"
    BLISTERS = "blisters", "Blisters or papules"
    SATELLITES = "satellites", "Satellite spots"
    HAIR_PUSTULES = "hair_pustules", "Pustules at hairs"
    MACERATION = "maceration", "Pale and soggy"
    STRIPPING = "stripping", "Stripped or torn"
    PRESSURE_MARK = "pressure_mark", "Pressure mark that stays"
    WARTY = "warty", "Thick and warty"
    GRANULOMA = "granuloma", "Moist red bump at the skin join"
    HARD_LUMP = "hard_lump", "Hard or growing lump"
    DILATED_VEINS = "dilated_veins", "Blue-purple veins"
    SCALE = "scale", "Scaly plaque"
    SPREADING_WARMTH = "spreading_warmth", "Spreading, warm and tender"
    ABSCESS = "abscess", "Abscess"
    FISTULA = "fistula", "Extra opening (fistula)"


# --- abdomen --------------------------------------------------------------------------------
class Contour(TextChoices):
    FLAT = "flat", "Flat"
    ROUNDED = "rounded", "Rounded"
    PENDULOUS = "pendulous", "Pendulous"
    HOLLOW = "hollow", "Hollow"


class Firmness(TextChoices):
    SOFT = "soft", "Soft"
    FIRM = "firm", "Firm"


class Posture(TextChoices):
    LYING = "lying", "Lying"
    SITTING = "sitting", "Sitting"
    STANDING = "standing", "Standing"
    BENDING = "bending", "Bending"


# --- output ---------------------------------------------------------------------------------
class Consistency(TextChoices):
    WATERY = "watery", "Watery"
    LIQUID = "liquid", "Liquid"
    PASTE = "paste", "Paste or porridge"
    SOFT = "soft", "Soft"
    FORMED = "formed", "Formed"
    URINE = "urine", "Urine"


class Symptom(TextChoices):
    MILD_CRAMPS = "mild_cramps", "Mild cramps"
    SEVERE_CRAMPS = "severe_cramps", "Severe cramps"
    NAUSEA = "nausea", "Nausea"
    VOMITING = "vomiting", "Vomiting"
    SWOLLEN_ABDOMEN = "swollen_abdomen", "Swollen abdomen"
    DIZZY_ON_STANDING = "dizzy_on_standing", "Dizzy on standing"
    CONFUSION = "confusion", "Confused"
    LITTLE_URINE = "little_urine", "Very little urine"
    FEVER = "fever", "Fever 38 °C or more, or rigors"
    LOIN_PAIN = "loin_pain", "Loin pain"
    FAINTNESS = "faintness", "Faint"
    FACE_SWELLING_OR_WHEEZE = "face_swelling_or_wheeze", "Face swelling, wheeze, widespread hives"


class UrineSign(TextChoices):
    CRYSTALS = "crystals", "Gritty crystals"
    STRONG_ODOUR = "strong_odour", "Strong odour"
    BLOOD = "blood", "Blood"


class RemovalReason(TextChoices):
    PLANNED = "planned", "Planned change"
    LEAK = "leak", "Leak"
    ITCH_OR_PAIN = "itch_or_pain", "Itch or pain"
    FELL_OFF = "fell_off", "Fell off"


class Hour(IntegerChoices):
    """Hours of the clock face."""

    ONE = 1, "1"
    TWO = 2, "2"
    THREE = 3, "3"
    FOUR = 4, "4"
    FIVE = 5, "5"
    SIX = 6, "6"
    SEVEN = 7, "7"
    EIGHT = 8, "8"
    NINE = 9, "9"
    TEN = 10, "10"
    ELEVEN = 11, "11"
    TWELVE = 12, "12"
