"""Patient, contacts, restriction, sensitivity, stoma."""

from clinic.patients.models.contacts import Contacts
from clinic.patients.models.known_state import KnownKind, KnownState
from clinic.patients.models.patient import (
    Dexterity,
    Eyesight,
    Patient,
    PouchChanger,
    Sex,
    SheetLanguage,
)
from clinic.patients.models.restriction import Restricted, Restriction
from clinic.patients.models.sensitivity import Material, Removal, Sensitivity
from clinic.patients.models.stoma import Construction, Permanence, Site, Stoma, StomaKind
from clinic.patients.models.telephone import PhoneKind, Telephone, Whose

__all__ = [
    "Construction",
    "Contacts",
    "Dexterity",
    "Eyesight",
    "KnownKind",
    "KnownState",
    "Material",
    "Patient",
    "Permanence",
    "PhoneKind",
    "PouchChanger",
    "Removal",
    "Restricted",
    "Restriction",
    "Sensitivity",
    "Sex",
    "SheetLanguage",
    "Site",
    "Stoma",
    "StomaKind",
    "Telephone",
    "Whose",
]
