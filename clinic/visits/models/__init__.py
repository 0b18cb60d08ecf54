"""Rows of a visit. Import models from here."""

from clinic.visits.models.abdomen import AbdomenAssessment, Crease
from clinic.visits.models.assessment import Assessment
from clinic.visits.models.begun_product import BegunProduct
from clinic.visits.models.colour_part import ColourPart
from clinic.visits.models.confirmation import Confirmation
from clinic.visits.models.draft import ConflictCopy, PendingEntry
from clinic.visits.models.measurement import StomaMeasurement
from clinic.visits.models.nearby import OtherStoma, Wound
from clinic.visits.models.output import OutputAssessment
from clinic.visits.models.person_today import PersonToday
from clinic.visits.models.photo import Photo, PhotoMeasurement
from clinic.visits.models.skin import SkinAssessment, SkinFinding
from clinic.visits.models.system import PouchingSystem
from clinic.visits.models.visit import Addendum, Visit
from clinic.visits.models.visit_wear import WearEpisode
from clinic.visits.models.worn_barrier import WornBarrier

__all__ = [
    "AbdomenAssessment",
    "Addendum",
    "Assessment",
    "BegunProduct",
    "ColourPart",
    "Confirmation",
    "ConflictCopy",
    "Crease",
    "OtherStoma",
    "OutputAssessment",
    "PendingEntry",
    "PersonToday",
    "Photo",
    "PhotoMeasurement",
    "PouchingSystem",
    "SkinAssessment",
    "SkinFinding",
    "StomaMeasurement",
    "Visit",
    "WearEpisode",
    "WornBarrier",
    "Wound",
]
