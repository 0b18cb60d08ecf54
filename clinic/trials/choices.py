"""Words for what was tried, how it went and who says so."""

from django.db.models import TextChoices

from clinic.visits.choices import ConvexDepth, Profile

__all__ = ["ConvexDepth", "Feel", "KnownFrom", "Outcome", "Profile", "Removal", "Supply"]


class Feel(TextChoices):
    """How the barrier gives way; there is no agreed unit."""

    SOFT = "soft", "Soft or flexible"
    FIRM = "firm", "Firm"


class Supply(TextChoices):
    """What was tried besides the barrier's profile, by the planner's own keys."""

    OTHER_MATERIAL = "other_material", "Barrier of another material"
    EXTENDED_WEAR = "extended_wear", "Extended-wear barrier"
    ONE_PIECE = "one_piece", "One-piece system"
    TWO_PIECE = "two_piece", "Two-piece system"
    PRE_CUT = "pre_cut", "Pre-cut opening"
    MOULDABLE = "mouldable", "Mouldable opening"
    RING = "ring", "Ring"
    HALF_RING = "half_ring", "Half-ring"
    STRIP = "strip", "Strip"
    PASTE = "paste", "Paste"
    POWDER = "powder", "Powder"
    ANTIFUNGAL_POWDER = "antifungal_powder", "Antifungal powder"
    PROTECTANT = "protectant", "Protectant film"
    ADHESIVE_REMOVER = "adhesive_remover", "Adhesive remover"
    TAPE = "tape", "Tape round the edge"
    BELT = "belt", "Belt"
    SUPPORT_GARMENT = "support_garment", "Support garment"
    HIGH_OUTPUT = "high_output", "High-output pouch"
    NIGHT_BAG = "night_bag", "Night bag"
    THICKENER = "thickener", "Thickener"
    LUBRICANT = "lubricant", "Lubricant in the pouch"
    POUCH_COVER = "pouch_cover", "Pouch cover"


class Outcome(TextChoices):
    HELPED = "helped", "Helped"
    PARTLY = "partly", "Better, but not enough"
    NO_HELP = "no_help", "Did not help"
    HARMED = "harmed", "Hurt the skin"
    UNKNOWN = "unknown", "Not known"


class KnownFrom(TextChoices):
    """Who says so."""

    PERSON = "person", "The patient or carer"
    LETTER = "letter", "A letter"
    OTHER_RECORD = "other_record", "Another clinic's record"
    STAFF = "staff", "A colleague"


class Removal(TextChoices):
    """Why a row is taken off the list."""

    MISTAKE = "mistake", "Recorded by mistake"
    TWICE = "twice", "Recorded twice"
    OTHER_STOMA = "other_stoma", "It was another stoma"
