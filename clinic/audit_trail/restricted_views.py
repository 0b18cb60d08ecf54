"""For the clinic lead: which records are restricted, and who opened one when and why."""

from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from clinic.accounts.permissions import Right, needs
from clinic.audit.models import AccessLog
from clinic.audit.record import record
from clinic.patients.models import Patient, Restriction

A_PAGE = 50


@require_safe
@needs(Right.READ_AUDIT)
def restricted(request: HttpRequest) -> HttpResponse:
    """By record number, as the audit trail names people. Reading the list is on record."""
    opened = AccessLog.objects.filter(action="opened restricted")
    page = Paginator(opened, A_PAGE).get_page(request.GET.get("page"))
    rows = list(page.object_list)
    known = Patient.objects.in_bulk([row.patient_uuid for row in rows], field_name="uuid")
    held = Restriction.objects.filter(lifted_at=None).select_related("patient", "set_by")
    context = {
        "page": page,
        "opened": [(row, known.get(row.patient_uuid)) for row in rows],
        "held": list(held),
    }
    record(request_or_actor=request, action="read", subject="restricted records")
    return render(request, "audit_trail/restricted.html", context)
