"""Save what the person answered: atomic, named, audited, once."""

from collections.abc import Mapping
from datetime import datetime
from uuid import UUID

from django.core.exceptions import ValidationError
from django.db import transaction
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.patient_answers.choices import How
from clinic.patient_answers.models import PatientAnswers
from clinic.visits.models import Assessment, Visit

ANSWERED = "Answers of this visit are on record. Withdraw them to type others."
DISCARDED = "This visit was discarded."
NOTHING = "Nothing was answered, so there is nothing to save."


@transaction.atomic
def save_answers(
    *,
    assessment: Assessment,
    key: UUID,
    ratings: Mapping[str, int | None],
    how: How,
    by: User,
    at: datetime,
    request: HttpRequest | None = None,
) -> PatientAnswers:
    """A paper may come back after the visit was signed: the answers change nothing of it.

    ``key`` was made with the page: sent twice, it is one. Raises ``ValidationError`` where answers
    are on record already, and for a discarded visit.
    """
    visit = Visit.objects.select_for_update().get(pk=assessment.visit_id)
    if found := PatientAnswers.objects.filter(assessment=assessment, uuid=key).first():
        return found
    if visit.state == "discarded":
        raise ValidationError(DISCARDED)
    if assessment.patientanswers_rows.filter(withdrawn_at__isnull=True).exists():
        raise ValidationError(ANSWERED)
    if all(rating is None for rating in ratings.values()):
        raise ValidationError(NOTHING)
    row = PatientAnswers(
        assessment=assessment, uuid=key, how=how, recorded_by=by, recorded_at=at, **ratings
    )
    row.full_clean()
    row.save()
    record(
        request_or_actor=request or by,
        action="recorded answers",
        subject=row,
        patient=visit.patient,
    )
    return row
