"""Patient, sensitivity, stoma."""

from clinic.patients.models.known_state import KnownKind, KnownState
from clinic.patients.models.patient import (
    Dexterity,
    Eyesight,
    Patient,
    PouchChanger,
    Sex,
    SheetLanguage,
)
from clinic.patients.models.sensitivity import Material, Removal, Sensitivity
from clinic.patients.models.stoma import Construction, Permanence, Site, Stoma, StomaKind

__all__ = [
    "Construction",
    "Dexterity",
    "Eyesight",
    "KnownKind",
    "KnownState",
    "Material",
    "Patient",
    "Permanence",
    "PouchChanger",
    "Removal",
    "Sensitivity",
    "Sex",
    "SheetLanguage",
    "Site",
    "Stoma",
    "StomaKind",
]
