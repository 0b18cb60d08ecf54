"""Find a patient. What is typed travels in the body of a POST, never in an address."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST, require_safe

from clinic.accounts.permissions import Right, needs
from clinic.audit.models import AccessLog
from clinic.audit.record import record, record_each
from clinic.patients.found_beyond_doubt import keep_recalled
from clinic.patients.models import Patient
from clinic.patients.search import AT_MOST, find

RECENT = 8


@require_safe
@needs(Right.SEE_IDENTITY)
def find_page(request: HttpRequest) -> HttpResponse:
    """The box, and the records this person opened last."""
    return render(request, "patients/find.html", {"recent": _recent(request)})


@require_POST
@needs(Right.SEE_IDENTITY)
def results(request: HttpRequest) -> HttpResponse:
    """The likeliest patients: a fragment for htmx, else the whole page."""
    words = request.POST.get("words", "")[:80].strip()
    found = find(words)
    keep_recalled(request, words, found)
    if words:
        record(
            request_or_actor=request,
            action="searched",
            subject="patients",
            detail=f"{len(found)} shown",
        )
        record_each(request_or_actor=request, action="found", subject="patients", patients=found)
    page = {"words": words, "found": found, "at_most": AT_MOST, "recent": _recent(request)}
    fragment = request.headers.get("HX-Target") == "results"
    return render(request, "patients/_results.html" if fragment else "patients/find.html", page)


def _recent(request: HttpRequest) -> list[Patient]:
    """Patients this person looked at last, newest first."""
    seen = AccessLog.objects.filter(
        actor_id=request.user.pk, action="viewed", patient_uuid__isnull=False
    ).values_list("patient_uuid", flat=True)[: RECENT * 10]
    order = list(dict.fromkeys(seen))[:RECENT]
    by_uuid = Patient.objects.in_bulk(order, field_name="uuid")
    return [by_uuid[uuid] for uuid in order if uuid in by_uuid]
