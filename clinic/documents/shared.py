"""What several papers show: who it is about, how to reach the clinic, which stoma, who reviewed
the translation."""

from __future__ import annotations

from dataclasses import dataclass

from django.conf import settings

from clinic.documents.patient_language.english_marks import in_english
from clinic.documents.patient_language.lay_terms import SITES, long_day
from clinic.documents.patient_language.translator import ENGLISH, Translator
from clinic.patients.models import Patient, Site, Stoma, StomaKind


def reviewer(language: str) -> str:
    """The name the settings give; "" where no one has reviewed it, and for English."""
    return str(settings.SHEET_REVIEWERS.get(language, ""))


@dataclass(frozen=True)
class Who:
    """Whose sheet: two identifiers and the record number, on every page."""

    name: str
    born: str
    record_number: str


@dataclass(frozen=True)
class Contact:
    """How to reach the clinic; "" is printed as a line to write on."""

    clinic: str
    phone: str
    hours: str
    emergency_number: str


def who(patient: Patient, translator: Translator = ENGLISH) -> Who:
    """Name and date of birth, with nothing shortened, and the record number."""
    return Who(
        patient.full_name, long_day(patient.date_of_birth, translator), patient.record_number
    )


def stoma_words(stoma: Stoma, translator: Translator = ENGLISH) -> str:
    """Kind and place."""
    kind, site = (
        translator.translate(StomaKind(stoma.kind).label),
        translator.translate(SITES[Site(stoma.site)]),
    )
    return translator.translate("{kind}, {site}", kind=kind, site=site)


def contact(translator: Translator = ENGLISH) -> Contact:
    """How to reach us, as the settings say; opening hours in English are marked as such."""
    hours = settings.CLINIC_HOURS
    if translator != ENGLISH:
        hours = settings.CLINIC_HOURS_TRANSLATED.get(translator.code) or in_english(hours)
    return Contact(
        clinic=settings.CLINIC_NAME,
        phone=settings.CLINIC_PHONE,
        hours=hours,
        emergency_number=settings.EMERGENCY_NUMBER,
    )
