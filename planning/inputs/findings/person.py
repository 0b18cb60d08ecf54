"""The wearer: sensitivities, illnesses, medicines, hands and eyes."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


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
    """Signs of dehydration in a child, asked under 16; each present, absent or not asked."""

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
