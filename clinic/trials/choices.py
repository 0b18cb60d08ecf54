"""Words for what was tried, how it went and who says so."""

from django.db.models import TextChoices

from clinic.visits.choices import Accessory, ConvexDepth, Profile

__all__ = ["ConvexDepth", "Feel", "KnownFrom", "Outcome", "Profile", "Removal", "Supply"]


class Feel(TextChoices):
    """How the barrier gives way; there is no agreed unit."""

    SOFT = "soft", "Soft or flexible"
    FIRM = "firm", "Firm"


class Supply(TextChoices):
    """What was tried besides the barrier's profile, by the planner's own keys. What a visit
    may record as used has the visit's words."""

    OTHER_MATERIAL = "other_material", "Barrier of another material"
    EXTENDED_WEAR = "extended_wear", "Extended-wear barrier"
    ONE_PIECE = "one_piece", "One-piece system"
    TWO_PIECE = "two_piece", "Two-piece system"
    PRE_CUT = "pre_cut", "Pre-cut opening"
    MOULDABLE = "mouldable", "Mouldable opening"
    RING = Accessory.RING.value, Accessory.RING.label
    HALF_RING = Accessory.HALF_RING.value, Accessory.HALF_RING.label
    STRIP = Accessory.STRIP.value, Accessory.STRIP.label
    PASTE = Accessory.PASTE.value, Accessory.PASTE.label
    POWDER = Accessory.POWDER.value, Accessory.POWDER.label
    ANTIFUNGAL_POWDER = Accessory.ANTIFUNGAL_POWDER.value, Accessory.ANTIFUNGAL_POWDER.label
    PROTECTANT = Accessory.PROTECTANT.value, Accessory.PROTECTANT.label
    ADHESIVE_REMOVER = Accessory.ADHESIVE_REMOVER.value, Accessory.ADHESIVE_REMOVER.label
    TAPE = Accessory.TAPE.value, Accessory.TAPE.label
    BELT = Accessory.BELT.value, Accessory.BELT.label
    SUPPORT_GARMENT = Accessory.SUPPORT_GARMENT.value, Accessory.SUPPORT_GARMENT.label
    HIGH_OUTPUT = "high_output", "High-output pouch"
    NIGHT_BAG = Accessory.NIGHT_BAG.value, Accessory.NIGHT_BAG.label
    THICKENER = Accessory.THICKENER.value, Accessory.THICKENER.label
    LUBRICANT = Accessory.LUBRICANT.value, Accessory.LUBRICANT.label
    POUCH_COVER = Accessory.POUCH_COVER.value, Accessory.POUCH_COVER.label


class Outcome(TextChoices):
    HELPED = "helped", "Helped"
    PARTLY = "partly", "Better, but not enough"
    NO_HELP = "no_help", "Did not help"
    HARMED = "harmed", "Hurt the skin"
    UNKNOWN = "unknown", "Not known"


class KnownFrom(TextChoices):
    """The source."""

    PERSON = "person", "The patient or carer"
    LETTER = "letter", "A letter"
    OTHER_RECORD = "other_record", "Another clinic's record"
    STAFF = "staff", "A colleague"


class Removal(TextChoices):
    """Why a row is taken off the list."""

    MISTAKE = "mistake", "Recorded by mistake"
    TWICE = "twice", "Recorded twice"
    OTHER_STOMA = "other_stoma", "Recorded for the wrong stoma"
