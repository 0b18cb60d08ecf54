"""Patient and stoma to the planner's person and stoma."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from clinic.formatting import years
from clinic.patients.models import Material as RecordedMaterial
from clinic.patients.models import Patient
from clinic.patients.models import Stoma as RecordedStoma
from clinic.plans.bridge.stored_values import word
from clinic.visits.models import Assessment
from planning.inputs.findings import (
    Ability,
    ChangedBy,
    Condition,
    Construction,
    Material,
    Person,
    Stoma,
    StomaKind,
)

MATERIALS = {
    RecordedMaterial.ADHESIVE_BARRIER: Material.BARRIER_ADHESIVE,
    RecordedMaterial.PROTECTANT_FILM: Material.PROTECTANT,
    RecordedMaterial.PASTE: Material.PASTE,
    RecordedMaterial.POWDER: Material.POWDER,
    RecordedMaterial.LATEX: Material.LATEX,
    RecordedMaterial.ALCOHOL: Material.ALCOHOL,
    RecordedMaterial.ADHESIVE_REMOVER: Material.ADHESIVE_REMOVER,
    RecordedMaterial.TAPE: Material.TAPE,
    RecordedMaterial.RING: Material.RING,
    RecordedMaterial.OTHER: Material.OTHER,
}


def person_of(assessment: Assessment, on: date, numbers: Mapping[str, Any]) -> Person:
    """The wearer as known ``on`` the day of the assessment; ``numbers`` charted of the person."""
    patient = assessment.visit.patient
    answers = _answers(patient, assessment)
    return Person(
        sensitivities=_sensitivities(patient),
        has=frozenset(c for c, answer in answers.items() if answer is True),
        has_not=frozenset(c for c, answer in answers.items() if answer is False),
        dexterity=word(Ability, patient.hand_dexterity),
        eyesight=word(Ability, patient.eyesight),
        changed_by=word(ChangedBy, patient.pouch_changed_by),
        age_years=years(patient.date_of_birth, on),
        **numbers,
    )


def _answers(patient: Patient, assessment: Assessment) -> dict[Condition, bool | None]:
    standing: dict[Condition, bool | None] = {
        Condition(name): getattr(patient, name) for name in Patient.STANDING_CONDITIONS
    }
    return {**standing, Condition.RECENT_ANTIBIOTICS: assessment.recent_antibiotics}


def _sensitivities(patient: Patient) -> frozenset[Material] | None:
    """None while nobody has asked: no row is not the same as no sensitivity."""
    known = frozenset(
        MATERIALS[RecordedMaterial(row.material)] for row in patient.sensitivities.all()
    )
    return known if known or patient.no_known_sensitivities else None


def stoma_of(stoma: RecordedStoma, assessment: Assessment, on: date) -> Stoma:
    """The stoma with its age in days ``on`` the day of the visit."""
    return Stoma(
        kind=StomaKind(stoma.kind),
        construction=word(Construction, stoma.construction),
        days_since_surgery=(on - stoma.surgery_date).days if stoma.surgery_date else None,
        rod_in_place=assessment.rod_in_place,
    )
