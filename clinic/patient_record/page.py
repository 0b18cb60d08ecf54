"""Everything the record page shows, for clinicians and for the desk."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest
from django.utils import timezone

from clinic.accounts.permissions import Right, may
from clinic.documents.desk import prints_for
from clinic.documents.printed.printed_lists import papers_of
from clinic.follow_up.presenters.next_visit import next_visits
from clinic.patient_record.questions import questions_of
from clinic.patient_record.stoma_blocks import blocks_of
from clinic.patient_record.visit_lines import visit_lines
from clinic.patients.forms import conditions_of
from clinic.patients.models import Patient
from clinic.site_marking.queries import marked_before
from clinic.tasks.presenters import tasks_of_patient


def desk_page(request: HttpRequest, patient: Patient) -> dict[str, Any]:
    """Nothing clinical: who, when the next visit is, and the papers of signed visits."""
    prints = prints_for(request, patient)
    return {
        "patient": patient,
        "next_visits": list(next_visits(patient, clinical=False).values()),
        "rows": papers_of(request.user, patient) if prints else None,  # type: ignore[arg-type]
        "find_first": may(request.user, Right.PRINT) and not prints,
    }


def clinical_page(request: HttpRequest, patient: Patient) -> dict[str, Any]:
    """The number of queries grows with the stomas that are open, not with the visits."""
    stomas = list(patient.stomas.prefetch_related("known_states"))
    blocks = blocks_of(patient, [stoma for stoma in stomas if stoma.is_open])
    conditions = conditions_of(patient)
    questions = questions_of(patient, [block.latest for block in blocks if block.latest])
    may_answer = may(request.user, Right.ANSWER_REFERRAL)
    return {
        "patient": patient,
        "stomas": stomas,
        "blocks": blocks,
        "closed": [stoma for stoma in stomas if not stoma.is_open],
        "first": min(blocks, key=lambda block: block.turn, default=None),
        "marked": marked_before(patient, has_stoma=bool(stomas)),
        "questions": questions,
        "to_answer": next((one for one in questions if one.asked and may_answer), None),
        "today": timezone.localdate(),
        "tasks": tasks_of_patient(request, patient),
        "present": [label for label, answer in conditions.items() if answer],
        "absent": [label for label, answer in conditions.items() if answer is False],
        "not_known": [label for label, answer in conditions.items() if answer is None],
        **visit_lines(patient, request.GET.get("visits")),
    }
