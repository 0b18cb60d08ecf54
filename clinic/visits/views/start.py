"""Begin a visit, take in another stoma, discard a draft."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils import timezone
from django.views.decorators.http import require_POST

from clinic.accounts.permissions import Right, needs
from clinic.once.sending import made, once
from clinic.patients.models import Stoma
from clinic.visits.actions.start import (
    AlreadyBegun,
    add_assessment,
    discard_visit,
    start_visit,
)
from clinic.visits.choices import VisitState
from clinic.visits.models import Visit
from clinic.visits.policies import NotAllowedNow


@require_POST
@needs(Right.CHART)
@once
def start(request: HttpRequest, stoma: UUID) -> HttpResponse:
    """Begin a visit, or continue a draft of this stoma that is still open."""
    found = get_object_or_404(Stoma.objects.select_related("patient"), uuid=stoma)
    try:
        visit = start_visit(stoma=found, by=request.user, at=timezone.now(), request=request)  # type: ignore[arg-type]
    except AlreadyBegun as begun:
        messages.info(request, "This visit was begun before and is not signed yet.")
        return redirect("charting:chart", begun.assessment.uuid)
    except NotAllowedNow as why_not:
        messages.error(request, str(why_not))
        return made(redirect("patients:record", found.patient.uuid), "")
    return redirect("charting:chart", visit.assessments.get().uuid)


@require_POST
@needs(Right.CHART)
@once
def also(request: HttpRequest, visit: UUID, stoma: UUID) -> HttpResponse:
    """Assess another stoma of the same patient at the same visit."""
    found = get_object_or_404(Visit, uuid=visit)
    other = get_object_or_404(Stoma, uuid=stoma, patient=found.patient)
    try:
        assessment = add_assessment(visit=found, stoma=other, by=request.user, request=request)  # type: ignore[arg-type]
    except NotAllowedNow as why_not:
        messages.error(request, str(why_not))
        return made(_back_to(found), "")
    return redirect("charting:chart", assessment.uuid)


@require_POST
@needs(Right.CHART)
@once
def discard(request: HttpRequest, visit: UUID) -> HttpResponse:
    """Take a draft begun by mistake out of sight."""
    found = get_object_or_404(Visit, uuid=visit)
    try:
        discard_visit(visit=found, by=request.user, request=request)  # type: ignore[arg-type]
    except NotAllowedNow as why_not:
        messages.error(request, f"Not discarded. {why_not}")
        return made(_back_to(found), "")
    messages.success(request, "The draft was discarded.")
    return redirect("patients:record", found.patient.uuid)


def _back_to(visit: Visit) -> HttpResponse:
    """To the visit as it is now; a discarded one is only on the record."""
    if visit.state == VisitState.DISCARDED:
        return redirect("patients:record", visit.patient.uuid)
    return redirect("charting:visit", visit.uuid)
