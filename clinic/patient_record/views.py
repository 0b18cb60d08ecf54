"""The record of one patient."""

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from clinic.accounts.permissions import Right, may, needs
from clinic.audit.record import record
from clinic.patient_record.page import clinical_page, desk_page
from clinic.patients.models import Patient


@require_safe
@needs(Right.SEE_IDENTITY)
def show(request: HttpRequest, patient: UUID) -> HttpResponse:
    """Who may not see clinical matters gets identity, what is due, and papers to print."""
    person = get_object_or_404(Patient, uuid=patient)
    record(request_or_actor=request, action="viewed", subject=person)
    if may(request.user, Right.SEE_CLINICAL):
        return render(request, "patient_record/record.html", clinical_page(request, person))
    return render(request, "patient_record/for_desk.html", desk_page(request, person))
