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


class VisitHeld(TextChoices):
    """Where or how patient and nurse met."""

    CLINIC = "clinic", "In the clinic"
    HOME = "home", "At home"
    WARD = "ward", "On the ward"
    TELEPHONE = "telephone", "By telephone"
    VIDEO = "video", "By video"


#: The nurse neither saw nor felt with their own hands.
REMOTE = (VisitHeld.TELEPHONE, VisitHeld.VIDEO)


class SectionKey(TextChoices):
    """Parts of the visit page, in the order the hands work."""

    SYSTEM = "system", "Used barrier and system"
    STOMA = "stoma", "Stoma"
    SKIN = "skin", "Skin"
    ABDOMEN = "abdomen", "Abdomen"
    OUTPUT = "output", "Output and symptoms"
    WEAR = "wear", "Wear since last visit"


# --- pouching system in use -----------------------------------------------------------------
class Pieces(TextChoices):
    ONE = "one_piece", "One-piece"
    TWO = "two_piece", "Two-piece"


class Profile(TextChoices):
    FLAT = "flat", "Flat"
    CONVEX = "convex", "Convex"
    CONCAVE = "concave", "Concave"


class Compressibility(TextChoices):
    """How far the barrier's dome gives way under pressure; the values are the planner's degrees."""

    SOFT = "more", "Soft"
    FIRM = "less", "Firm"


class Flexibility(TextChoices):
    """How far the barrier bends."""

    FLEXIBLE = "more", "Flexible"
    STIFF = "less", "Stiff"


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
    TAPE = "tape", "Tape round the edge"
    POUCH_COVER = "pouch_cover", "Pouch cover"
    LUBRICANT = "lubricant", "Lubricant in the pouch"


class OtherSupply(TextChoices):
    """Words of ``Accessory`` that a visit may be older than: a group of their own, so that *none*
    of the first list never claims that these were asked."""

    TAPE = Accessory.TAPE.value, Accessory.TAPE.label
    POUCH_COVER = Accessory.POUCH_COVER.value, Accessory.POUCH_COVER.label
    LUBRICANT = Accessory.LUBRICANT.value, Accessory.LUBRICANT.label


#: Words that every visit was asked.
FIRST_ACCESSORIES = tuple(word for word in Accessory.values if word not in OtherSupply.values)


class ConvexDepth(TextChoices):
    SHALLOW = "shallow", "Shallow"
    MODERATE = "moderate", "Moderate"
    DEEP = "deep", "Deep"


class Product(TextChoices):
    """What lies on the skin, by where it lies."""

    BARRIER = "barrier", "Barrier"
    TAPE_BORDER = "tape_border", "Tape border"
    RING = "ring", "Ring"
    PASTE = "paste", "Paste"
    POWDER = "powder", "Powder"
    FILM = "film", "Protectant film"
    REMOVER = "remover", "Adhesive remover"
    BELT = "belt", "Belt"
    GARMENT = "garment", "Support garment"
    POUCH = "pouch", "Pouch"
    POUCH_COVER = "pouch_cover", "Pouch cover"


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
    FLABBY = "flabby", "Flaccid"


class Oedema(TextChoices):
    NONE = "none", "None"
    MILD = "mild", "Mild"
    MARKED = "marked", "Marked"


class Bleeding(TextChoices):
    NONE = "none", "None"
    ON_WIPING = "on_wiping", "A little, on wiping"
    OOZE_AT_JUNCTION = "ooze_at_junction", "Oozing at the mucocutaneous junction"
    SEVERAL_EMPTIES = "several_empties", "Blood at several emptyings"
    FROM_LUMEN = "from_lumen", "From inside the stoma"
    SPURTING_OR_UNSTOPPED = "spurting_or_unstopped", "Spurting, or not stopped by 10 min pressure"


class Calibre(TextChoices):
    """What the lumen admits."""

    INDEX_FINGER = "index_finger", "Index finger"
    LITTLE_FINGER = "little_finger", "Little finger"
    FINGERTIP = "fingertip", "Fingertip only"
    NOTHING = "nothing", "Nothing"


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
    ERYTHEMA = "erythema", "Redness, skin intact"
    EROSION = "erosion", "Raw, shallow erosion"
    ULCER = "ulcer", "Ulcer"
    UNDERMINED_ULCER = "undermined_ulcer", "Ulcer with violet, undermined edge"
    BLISTERS = "blisters", "Blisters or papules"
    SATELLITES = "satellites", "Satellite spots"
    HAIR_PUSTULES = "hair_pustules", "Pustules at hair follicles"
    MACERATION = "maceration", "Maceration (pale, soggy)"
    STRIPPING = "stripping", "Stripped or torn"
    PRESSURE_MARK = "pressure_mark", "Pressure mark that stays"
    WARTY = "warty", "Thick and warty"
    GRANULOMA = "granuloma", "Granuloma (moist red bump at the junction)"
    HARD_LUMP = "hard_lump", "Hard or growing lump"
    DILATED_VEINS = "dilated_veins", "Blue-purple veins"
    SCALE = "scale", "Scaly plaque"
    SPREADING_WARMTH = "spreading_warmth", "Spreading, warm and tender"
    ABSCESS = "abscess", "Abscess"
    FISTULA = "fistula", "Extra opening (fistula)"
    WEAL = "weal", "Weals (hives)"
    PIGMENTED_SPOT = "pigmented_spot", "Dark spot or mole"
    BRUISE = "bruise", "Bruise"
    SETTLED_SCAR = "settled_scar", "Settled scar"


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
    """Asked of everybody. Those of the three groups below are asked where they matter, each group
    by itself: an answer to one says nothing of the others."""

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


class BellySymptom(TextChoices):
    ABDOMINAL_PAIN = "abdominal_pain", "Pain in the abdomen"
    CONSTANT_SEVERE_PAIN = "constant_severe_pain", "Constant severe pain"
    RISING_PAIN = "rising_pain", "Pain getting worse"
    RIGID_ABDOMEN = "rigid_abdomen", "Abdomen rigid"
    NO_GAS = "no_gas", "No gas"
    SPURTING_OUTPUT = "spurting_output", "Output comes in spurts"
    HARD_MASS = "hard_mass", "Hard mass felt"
    RIBBON_STOOL = "ribbon_stool", "Ribbon-like stool"
    EXPLOSIVE_OUTPUT = "explosive_output", "Explosive output"
    THICK_STICKING_STOOL = "thick_sticking_stool", "Pancaking (thick stool sticks at the stoma)"
    BALLOONING = "ballooning", "Ballooning (pouch fills with gas)"
    PAIN_BEFORE_OUTPUT = "pain_before_output", "Cramp that eases when output comes"
    TRICKLE_ONLY = "trickle_only", "Only a watery trickle"
    BLOCKING_FOOD = "blocking_food", "Ate food that can cause a blockage"
    FAECULENT_VOMIT = "faeculent_vomit", "Vomit smells of stool"


class FluidSymptom(TextChoices):
    THIRST = "thirst", "Thirst"
    DRY_MOUTH = "dry_mouth", "Dry mouth"
    DARK_URINE = "dark_urine", "Dark urine"
    TIRED = "tired", "Very tired"
    LIMB_CRAMPS = "limb_cramps", "Cramps in the legs or arms"
    LIMB_WEAKNESS = "limb_weakness", "Weak legs or arms"
    PALPITATIONS = "palpitations", "Palpitations"
    CANNOT_KEEP_FLUIDS = "cannot_keep_fluids", "Cannot keep fluids down"


class InfectionSymptom(TextChoices):
    RIGORS = "rigors", "Shaking chills (rigors)"
    LOOKS_ILL = "looks_ill", "Looks ill"
    MOTTLED_SKIN = "mottled_skin", "Mottled skin"
    RESTLESS = "restless", "Restless"
    DROWSY = "drowsy", "Drowsy"
    PALE = "pale", "Pale"


class UrineSign(TextChoices):
    CRYSTALS = "crystals", "Gritty crystals"
    STRONG_ODOUR = "strong_odour", "Strong odour"
    BLOOD = "blood", "Blood"
    PINK = "pink", "Pink"
    CLOTS = "clots", "Clots"
    CLOUDY = "cloudy", "Cloudy"
    THIN_LONG_STREAM = "thin_long_stream", "Thin, long stream"


class UrineLook(TextChoices):
    """Words of ``UrineSign`` that a visit may be older than: a group of their own."""

    PINK = UrineSign.PINK.value, UrineSign.PINK.label
    CLOTS = UrineSign.CLOTS.value, UrineSign.CLOTS.label
    CLOUDY = UrineSign.CLOUDY.value, UrineSign.CLOUDY.label
    THIN_LONG_STREAM = UrineSign.THIN_LONG_STREAM.value, UrineSign.THIN_LONG_STREAM.label


#: Words that every visit of a urostomy was asked.
FIRST_URINE_SIGNS = tuple(word for word in UrineSign.values if word not in UrineLook.values)


class PouchBlood(TextChoices):
    """Red or black in what the pouch holds."""

    NONE = "none", "None"
    FOOD_COLOUR = "food_colour", "Colour of food eaten"
    ONCE = "once", "Once"
    SEVERAL_EMPTIES = "several_empties", "At several emptyings"
    CLOTS = "clots", "With clots"


class Discharge(TextChoices):
    """From the bowel left behind, or the resting opening."""

    NONE = "none", "None"
    MUCUS = "mucus", "Mucus"
    OLD_STOOL_ONCE = "old_stool_once", "Old stool, once"
    STOOL_AGAIN = "stool_again", "Stool, again"
    PUS = "pus", "Pus"
    BLOOD = "blood", "Blood"


# --- the person today -----------------------------------------------------------------------
class BloodTests(TextChoices):
    """Whether blood was taken today, and whether what it showed is known."""

    NOT_TAKEN = "not_taken", "Not taken"
    TAKEN = "taken", "Taken, result not known yet"
    RESULT_KNOWN = "result_known", "Result known"


class Medicine(TextChoices):
    """By class."""

    OPIOID = "opioid", "Opioid"
    IRON = "iron", "Iron"
    ANTICHOLINERGIC = "anticholinergic", "Anticholinergic"
    LAXATIVE = "laxative", "Laxative"
    MAGNESIUM_ANTACID = "magnesium_antacid", "Antacid with magnesium"
    ANTIDIARRHOEAL = "antidiarrhoeal", "Antidiarrhoeal"
    ACID_REDUCER = "acid_reducer", "Acid reducer"
    DIURETIC = "diuretic", "Diuretic"
    ACE_INHIBITOR_OR_ARB = "ace_inhibitor_or_arb", "ACE inhibitor or ARB"
    SGLT2_INHIBITOR = "sglt2_inhibitor", "SGLT2 inhibitor"
    METFORMIN = "metformin", "Metformin"
    NSAID = "nsaid", "NSAID"
    COATED_OR_SLOW_RELEASE = "coated_or_slow_release", "Coated or slow-release tablets"
    NICORANDIL = "nicorandil", "Nicorandil"
    STEROID = "steroid", "Steroid"
    BIOLOGIC = "biologic", "Biologic"
    ANTICOAGULANT = "anticoagulant", "Anticoagulant"
    ANTIPLATELET = "antiplatelet", "Antiplatelet"
    ANTIBIOTIC = "antibiotic", "Antibiotic"
    NARROW_RANGE = "narrow_range", "Medicine with a narrow therapeutic range"


class ChildSign(TextChoices):
    """Signs of dehydration in a child."""

    FEWER_WET_NAPPIES = "fewer_wet_nappies", "Fewer wet nappies"
    NO_WET_NAPPY_6_HOURS = "no_wet_nappy_6_hours", "No wet nappy for 6 hours"
    SUNKEN_EYES_OR_FONTANELLE = "sunken_eyes_or_fontanelle", "Sunken eyes or fontanelle"
    NO_TEARS = "no_tears", "No tears"
    DRY_MOUTH = "dry_mouth", "Dry mouth"
    COLD_HANDS = "cold_hands", "Cold hands"
    SLOW_REFILL = "slow_refill", "Slow capillary refill"
    SLEEPY = "sleepy", "Sleepy"
    SALT_CRAVING = "salt_craving", "Craves salt"
    NOT_GAINING = "not_gaining", "Not gaining weight"
    GREEN_VOMIT = "green_vomit", "Green vomit"


class RemovalReason(TextChoices):
    PLANNED = "planned", "Planned change"
    LEAK = "leak", "Leak"
    ITCH_OR_PAIN = "itch_or_pain", "Itch or pain"
    FELL_OFF = "fell_off", "Fell off"


class Circumstance(TextChoices):
    """What else was the matter when a barrier came off."""

    OVERFULL = "overfull", "Pouch too full"
    SOAKED = "soaked", "Soaked"
    PASSING_ILLNESS = "passing_illness", "Short illness"
    OTHER_SYSTEM = "other_system", "Another system was worn"
    PULLED_OFF = "pulled_off", "Pulled off"
    LOAD_ACROSS = "load_across", "Clothing or a strap pressed on it"


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
