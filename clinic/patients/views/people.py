"""Register and correct a patient."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, may, needs
from clinic.audit.record import record
from clinic.patients.actions import correct_patient, register_patient
from clinic.patients.forms import IdentityForm, PatientForm
from clinic.patients.models import Patient
from clinic.patients.search import like_this_one
from clinic.patients.views.record_form import Question, ask
from clinic.requests import posted

REGISTER = Question("Register a patient", "Register", "Patient registered.")
CORRECT = Question(
    "Correct the record", "Save", "Record corrected.", lead="Earlier entries stay in the history."
)


@require_http_methods(["GET", "HEAD", "POST"])
@needs(Right.EDIT_IDENTITY)
def register(request: HttpRequest) -> HttpResponse:
    """A new patient; somebody very alike is shown first and must be ruled out by hand."""
    form = _form_for(request)(posted(request))
    alike: list[Patient] = []
    if request.method == "POST" and form.is_valid():
        values = form.values()
        alike = like_this_one(
            given_name=values["given_name"],
            family_name=values["family_name"],
            born=values["date_of_birth"],
        )
        if not alike or request.POST.get("another_person") == "yes":
            person = register_patient(by=request, values=values)
            messages.success(request, REGISTER.done)
            return redirect("patients:record", person.uuid)
    if alike:
        detail = f"{len(alike)} shown"
        record(request_or_actor=request, action="compared", subject="patients", detail=detail)
    page = {"form": form, "alike": alike, "words": REGISTER, "cancel": reverse("patients:find")}
    return render(request, "patients/register.html", page)


@require_http_methods(["GET", "HEAD", "POST"])
@needs(Right.EDIT_IDENTITY)
def correct(request: HttpRequest, patient: UUID) -> HttpResponse:
    """Change what was recorded; the earlier words stay in the history."""
    person = get_object_or_404(Patient, uuid=patient)
    form = _form_for(request)(posted(request), instance=person)

    def save() -> None:
        correct_patient(patient=person, by=request, values=form.values())

    return ask(request, person, form, CORRECT, save)


def _form_for(request: HttpRequest) -> type[IdentityForm]:
    return PatientForm if may(request.user, Right.SEE_CLINICAL) else IdentityForm
