"""The trend of one stoma."""

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.patients.models import Stoma
from clinic.trends.page import page_of
from clinic.trends.tried import tried_of
from clinic.trials.changes import changes_of


@require_GET
@needs(Right.SEE_CLINICAL)
def stoma(request: HttpRequest, stoma: UUID) -> HttpResponse:
    """What changed, whether it helped, and what is asked of whom."""
    found = get_object_or_404(Stoma.objects.select_related("patient"), uuid=stoma)
    record(request_or_actor=request, action="viewed trend", subject=found)
    return render(request, "trends/stoma.html", page_of(found, request.GET))


@require_GET
@needs(Right.SEE_CLINICAL)
def tried(request: HttpRequest, stoma: UUID) -> HttpResponse:
    """What was tried, from before this record until now."""
    found = get_object_or_404(Stoma.objects.select_related("patient"), uuid=stoma)
    record(request_or_actor=request, action="viewed what was tried", subject=found)
    page = {"stoma": found, "patient": found.patient, "tried": tried_of(found)}
    return render(request, "trends/tried.html", page | {"changes": changes_of(found)})
