"""What comes out, and the symptoms: each group of them asked by itself."""

from __future__ import annotations

from typing import Final

from django.db.models import TextChoices

from clinic.plans.bridge.charted import Charted, numbers
from clinic.plans.bridge.stored_values import Word, two_groups, word
from clinic.visits import choices
from clinic.visits.models import OutputAssessment
from planning.inputs import findings as f

#: Words of one group, column of those present, column of *the others were asked, and are absent*.
#: Where a group was not asked, or the visit is older than the group, nothing of it is known.
SYMPTOMS: Final[tuple[tuple[type[TextChoices], str, str], ...]] = (
    (choices.Symptom, "symptoms", "others_absent"),
    (choices.BellySymptom, "belly_symptoms", "belly_others_absent"),
    (choices.FluidSymptom, "fluid_symptoms", "fluid_others_absent"),
    (choices.InfectionSymptom, "infection_symptoms", "infection_others_absent"),
)


def output_of(
    row: OutputAssessment | None, values: Charted, blood_tests: f.BloodTests | None
) -> f.Output:
    """The output; the vital signs and ``blood_tests`` may have been charted with another stoma of
    the visit."""
    vitals = f.Vitals(**numbers(values, "output.vitals", f.Vitals))
    if row is None:
        return f.Output(vitals=vitals, blood_tests=blood_tests)
    present, absent = _symptoms(row)
    urine, not_asked = two_groups(f.UrineSign, choices.UrineLook, row.urine_signs, row.urine_looks)
    return f.Output(
        **numbers(values, "output", f.Output),
        consistency=word(f.Consistency, row.consistency),
        urine_signs=urine,
        urine_signs_not_asked=not_asked,
        blood_tests=blood_tests,
        present=present,
        absent=absent,
        vitals=vitals,
        pouch_blood=word(f.PouchBlood, row.pouch_blood),
        discharge=word(f.Discharge, row.discharge),
        tablets_whole=row.tablets_whole,
        stent_out_early=row.stent_out_early,
    )


def _symptoms(row: OutputAssessment) -> tuple[frozenset[f.Symptom], frozenset[f.Symptom]]:
    present: set[f.Symptom] = set()
    absent: set[f.Symptom] = set()
    for words, column, others in SYMPTOMS:
        has, has_not = answered(f.Symptom, words, getattr(row, column), getattr(row, others))
        present |= has
        absent |= has_not
    return frozenset(present), frozenset(absent)


def answered(
    kind: type[Word], words: type[TextChoices], ticked: list[str] | None, others_absent: bool | None
) -> tuple[frozenset[Word], frozenset[Word]]:
    """Which of a list are present, and which absent: only where somebody asked about the rest."""
    present = frozenset(kind(value) for value in ticked or ())
    asked_all = ticked == [] or others_absent is True
    return present, frozenset(kind(v) for v in words.values) - present if asked_all else frozenset()
