"""Patient and stoma to the planner's person and stoma."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from clinic.formatting import years
from clinic.patients.models import Material as RecordedMaterial
from clinic.patients.models import Patient
from clinic.patients.models import Stoma as RecordedStoma
from clinic.plans.bridge.charted import beside
from clinic.plans.bridge.output import answered
from clinic.plans.bridge.stored_values import word, word_set
from clinic.visits.choices import ChildSign as RecordedChildSign
from clinic.visits.models import Assessment, PersonToday
from planning.inputs.findings import (
    Ability,
    BloodTests,
    ChangedBy,
    ChildSign,
    Condition,
    Construction,
    Material,
    Medicine,
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
    RecordedMaterial.POUCH_COVER: Material.POUCH_COVER,
    RecordedMaterial.OTHER: Material.OTHER,
}


#: What the person's part of a visit says in words.
TODAY = (*PersonToday.CONDITIONS, "medicines", "child_signs", "child_others_absent")


def person_of(assessment: Assessment, on: date, numbers: Mapping[str, Any]) -> Person:
    """The wearer as known ``on`` the day of the assessment; ``numbers`` charted of the person."""
    patient = assessment.visit.patient
    today = _today(assessment)
    answers = _answers(patient, assessment, today)
    child_present, child_absent = answered(
        ChildSign, RecordedChildSign, today["child_signs"], today["child_others_absent"]
    )
    return Person(
        sensitivities=_sensitivities(patient),
        has=frozenset(c for c, answer in answers.items() if answer is True),
        has_not=frozenset(c for c, answer in answers.items() if answer is False),
        dexterity=word(Ability, patient.hand_dexterity),
        eyesight=word(Ability, patient.eyesight),
        changed_by=word(ChangedBy, patient.pouch_changed_by),
        age_years=years(patient.date_of_birth, on),
        medicines=word_set(Medicine, today["medicines"]),
        child_present=child_present,
        child_absent=child_absent,
        **numbers,
    )


def _answers(
    patient: Patient, assessment: Assessment, today: Mapping[str, Any]
) -> dict[Condition, bool | None]:
    return {
        **{Condition(name): getattr(patient, name) for name in Patient.STANDING_CONDITIONS},
        **{Condition(name): today[name] for name in PersonToday.CONDITIONS},
        Condition.RECENT_ANTIBIOTICS: assessment.recent_antibiotics,
    }


def _today(assessment: Assessment) -> dict[str, Any]:
    """What was charted of the person at this visit, with this stoma or with another."""
    row = getattr(assessment, "person_today", None)
    found = {name: getattr(row, name, None) for name in TODAY}
    for name in (*PersonToday.CONDITIONS, "medicines"):
        if found[name] is None:
            found[name] = beside(assessment, PersonToday, name)
    if found["child_signs"] is None and found["child_others_absent"] is None:
        # Both of one row: what was ticked at one stoma is not completed by another's answer.
        for name in ("child_signs", "child_others_absent"):
            found[name] = beside(assessment, PersonToday, name)
    return found


def blood_tests_of(assessment: Assessment) -> BloodTests | None:
    """Today's, charted with this stoma or with another of the visit."""
    row = getattr(assessment, "person_today", None)
    charted = row.blood_tests if row is not None else ""
    return word(BloodTests, charted or beside(assessment, PersonToday, "blood_tests"))


def _sensitivities(patient: Patient) -> frozenset[Material] | None:
    """None while no one has asked: no row is not the same as no sensitivity."""
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
