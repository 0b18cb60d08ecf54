"""What several papers show: who it is about, how to reach the clinic, which stoma."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic

from django.conf import settings

from clinic.clinic_details.current import current
from clinic.documents.patient_language.lay_terms import SITES, long_day
from clinic.documents.patient_language.unsaid import Given, Phrase, Unsaid, W
from clinic.patients.models import Patient, Site, Stoma, StomaKind


@dataclass(frozen=True)
class Who(Generic[W]):
    """Whose sheet: two identifiers and the record number, on every page."""

    name: str
    born: W
    record_number: str


@dataclass(frozen=True)
class Contact(Generic[W]):
    """How to reach the clinic; "" is printed as a line to write on."""

    clinic: str
    phone: str
    hours: W
    emergency_number: str


def who(patient: Patient) -> Who[Unsaid]:
    """Name and date of birth, with nothing shortened, and the record number."""
    return Who(patient.full_name, long_day(patient.date_of_birth), patient.record_number)


def stoma_words(stoma: Stoma) -> Unsaid:
    """Kind and place."""
    kind, site = Phrase(str(StomaKind(stoma.kind).label)), Phrase(SITES[Site(stoma.site)])
    return Phrase.of("{kind}, {site}", kind=kind, site=site)


def contact() -> Contact[Unsaid]:
    """How to reach us, as the clinic's lead keeps it."""
    found = current()
    return Contact(
        clinic=found.name,
        phone=found.phone,
        hours=Given(found.hours, found.hours_translated),
        emergency_number=settings.EMERGENCY_NUMBER,
    )
