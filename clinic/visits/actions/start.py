"""Begin a visit, take another stoma into it, throw away a draft begun by mistake."""

from datetime import datetime

from django.db import transaction
from django.http import HttpRequest
from django.utils import timezone

from clinic import formatting
from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.patients.models import Stoma
from clinic.visits.choices import VisitState
from clinic.visits.locking import locked_draft
from clinic.visits.models import Assessment, Visit
from clinic.visits.policies import NotAllowedNow, why_not_assess


class AlreadyBegun(NotAllowedNow):
    """This stoma has a draft: ``assessment``. Nothing was written."""

    def __init__(self, assessment: Assessment) -> None:
        self.assessment = assessment
        visit = assessment.visit
        super().__init__(
            f"A visit of this stoma, of {formatting.moment(visit.happened_at)} by "
            f"{visit.clinician.display_name}, is not signed yet: continue that one."
        )


@transaction.atomic
def start_visit(
    *, stoma: Stoma, by: User, at: datetime, request: HttpRequest | None = None
) -> Visit:
    """A draft visit that assesses ``stoma``. Raises ``NotAllowedNow`` for a closed stoma,
    ``AlreadyBegun`` where it has a draft."""
    _refuse_second(stoma)
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
    _refuse_second(stoma, but=visit)
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


def _refuse_second(stoma: Stoma, but: Visit | None = None) -> None:
    """Hold the stoma, so that two who begin at one moment begin one visit."""
    Stoma.objects.select_for_update(no_key=True).get(pk=stoma.pk)
    begun = Assessment.objects.filter(stoma=stoma, visit__state=VisitState.DRAFT)
    if but is not None:
        begun = begun.exclude(visit=but)
    newest = begun.select_related("visit__clinician").order_by("-visit__happened_at").first()
    if newest is not None:
        raise AlreadyBegun(newest)


@transaction.atomic
def discard_visit(*, visit: Visit, by: User, request: HttpRequest | None = None) -> None:
    """Take a draft out of sight. It stays in the database and in the history."""
    visit = locked_draft(visit)
    visit.state, visit.saved_by = VisitState.DISCARDED, by
    visit.save()
    record(request_or_actor=request or by, action="discarded", subject=visit)
