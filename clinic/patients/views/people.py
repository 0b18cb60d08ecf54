"""Correct a patient."""

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, may, needs
from clinic.once.sending import once
from clinic.patients.actions import correct_patient
from clinic.patients.forms import IdentityForm, PatientForm
from clinic.patients.models import Patient
from clinic.patients.views.record_form import Question, ask
from clinic.requests import posted

CORRECT = Question(
    "Correct the record", "Save", "Record corrected.", lead="Earlier entries stay in the history."
)


@require_http_methods(["GET", "HEAD", "POST"])
@needs(Right.EDIT_IDENTITY)
@once
def correct(request: HttpRequest, patient: UUID) -> HttpResponse:
    """Change what was recorded; the earlier words stay in the history."""
    person = get_object_or_404(Patient, uuid=patient)
    form = _form_for(request)(posted(request), instance=person)

    def save() -> None:
        correct_patient(patient=person, by=request, values=form.values())

    return ask(request, person, form, CORRECT, save)


def _form_for(request: HttpRequest) -> type[IdentityForm]:
    return PatientForm if may(request.user, Right.SEE_CLINICAL) else IdentityForm
