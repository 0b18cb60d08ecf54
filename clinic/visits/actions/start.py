"""Begin a visit, take another stoma into it, throw away a draft begun by mistake."""

from datetime import datetime

from django.db import transaction
from django.http import HttpRequest
from django.utils import timezone

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.patients.models import Stoma
from clinic.visits.choices import VisitState
from clinic.visits.locking import locked_draft
from clinic.visits.models import Assessment, Visit
from clinic.visits.policies import NotAllowedNow, why_not_assess


@transaction.atomic
def start_visit(
    *, stoma: Stoma, by: User, at: datetime, request: HttpRequest | None = None
) -> Visit:
    """A draft visit that assesses ``stoma``. Raises ``NotAllowedNow`` for a closed stoma."""
    visit = Visit.objects.create(patient=stoma.patient, clinician=by, happened_at=at, saved_by=by)
    add_assessment(visit=visit, stoma=stoma, by=by, request=request)
    record(request_or_actor=request or by, action="started", subject=visit)
    return visit


@transaction.atomic
def add_assessment(
    *, visit: Visit, stoma: Stoma, by: User, request: HttpRequest | None = None
) -> Assessment:
    """Assess one more stoma of the same patient at this visit."""
    visit = locked_draft(visit)
    why_not = why_not_assess(stoma, timezone.localdate(visit.happened_at))
    if why_not:
        raise NotAllowedNow(why_not)
    assessment, created = Assessment.objects.get_or_create(visit=visit, stoma=stoma)
    if created:
        record(
            request_or_actor=request or by,
            action="added",
            subject=assessment,
            patient=visit.patient,
        )
    return assessment


@transaction.atomic
def discard_visit(*, visit: Visit, by: User, request: HttpRequest | None = None) -> None:
    """Take a draft out of sight. It stays in the database and in the history."""
    visit = locked_draft(visit)
    visit.state, visit.saved_by = VisitState.DISCARDED, by
    visit.save()
    record(request_or_actor=request or by, action="discarded", subject=visit)
