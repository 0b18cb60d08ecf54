"""Who changed what, when."""

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.visits.models import Visit
from clinic.visits.presenters.change_history import history_of


@require_GET
@needs(Right.SEE_CLINICAL)
def history(request: HttpRequest, visit: UUID) -> HttpResponse:
    """Every change to one visit."""
    found = get_object_or_404(Visit.objects.select_related("patient"), uuid=visit)
    record(request_or_actor=request, action="viewed history", subject=found)
    return render(
        request,
        "visits/history.html",
        {"visit": found, "patient": found.patient, "lines": history_of(found)},
    )
