"""Answers that were not withdrawn, and what is shown of them beside a visit."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from clinic.patient_answers.models import PatientAnswers
from clinic.patient_answers.questions import QUESTIONS
from clinic.visits.models import Assessment


def ratings_of(assessments: Iterable[int]) -> dict[int, dict[str, int]]:
    """Of each assessment by its key: what was answered to which question; those without answers
    are left out. One query."""
    rows = PatientAnswers.objects.filter(
        assessment__in=list(assessments), withdrawn_at__isnull=True
    )
    return {
        row.assessment_id: {
            one.key: rating for one in QUESTIONS if (rating := row.rating(one.key)) is not None
        }
        for row in rows
    }


def standing(assessment: Assessment) -> PatientAnswers | None:
    rows = assessment.patientanswers_rows.filter(withdrawn_at__isnull=True)
    return rows.select_related("recorded_by").first()


def charted_pain(assessment: Assessment) -> int | None:
    """Pain at the stoma as the visit itself charted it; None: not charted."""
    output = getattr(assessment, "output", None)
    return None if output is None else output.pain_0_10


@dataclass(frozen=True)
class Answered:
    """Answers beside their visit; ``lines``: each question with its answer, None not answered.
    ``pain_charted``: the pain is the visit's own."""

    row: PatientAnswers
    lines: tuple[tuple[str, int | None], ...]
    pain_charted: bool


def answered(assessment: Assessment) -> Answered | None:
    row = standing(assessment)
    if row is None:
        return None
    charted = charted_pain(assessment)
    given = {one.key: row.rating(one.key) for one in QUESTIONS}
    if charted is not None:
        given["pain"] = charted
    lines = tuple((one.label, given[one.key]) for one in QUESTIONS)
    return Answered(row, lines, charted is not None)
