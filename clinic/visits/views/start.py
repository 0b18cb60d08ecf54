"""Begin a visit, take in another stoma, discard a draft."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils import timezone
from django.views.decorators.http import require_POST

from clinic.accounts.permissions import Right, needs
from clinic.patients.models import Stoma
from clinic.visits.actions.start import add_assessment, discard_visit, start_visit
from clinic.visits.models import Visit
from clinic.visits.policies import NotAllowedNow


@require_POST
@needs(Right.CHART)
def start(request: HttpRequest, stoma: UUID) -> HttpResponse:
    """Begin a visit, or continue a draft of this stoma that is still open."""
    found = get_object_or_404(Stoma.objects.select_related("patient"), uuid=stoma)
    draft = Visit.objects.drafts().filter(assessments__stoma=found).order_by("-happened_at").first()
    if draft is not None:
        messages.info(request, "This visit was begun before and is not signed yet.")
        return redirect("charting:chart", draft.assessments.get(stoma=found).uuid)
    try:
        visit = start_visit(stoma=found, by=request.user, at=timezone.now(), request=request)  # type: ignore[arg-type]
    except NotAllowedNow as why_not:
        messages.error(request, str(why_not))
        return redirect("patients:record", found.patient.uuid)
    return redirect("charting:chart", visit.assessments.get().uuid)


@require_POST
@needs(Right.CHART)
def also(request: HttpRequest, visit: UUID, stoma: UUID) -> HttpResponse:
    """Assess another stoma of the same patient at the same visit."""
    found = get_object_or_404(Visit.objects.drafts(), uuid=visit)
    other = get_object_or_404(Stoma, uuid=stoma, patient=found.patient)
    try:
        assessment = add_assessment(visit=found, stoma=other, by=request.user, request=request)  # type: ignore[arg-type]
    except NotAllowedNow as why_not:
        messages.error(request, str(why_not))
        return redirect("charting:visit", found.uuid)
    return redirect("charting:chart", assessment.uuid)


@require_POST
@needs(Right.CHART)
def discard(request: HttpRequest, visit: UUID) -> HttpResponse:
    """Take a draft begun by mistake out of sight."""
    found = get_object_or_404(Visit.objects.drafts(), uuid=visit)
    discard_visit(visit=found, by=request.user, request=request)  # type: ignore[arg-type]
    messages.success(request, "The draft was discarded.")
    return redirect("patients:record", found.patient.uuid)
