"""Register a patient: somebody who may be on record already is shown first, and the person who
registers decides."""

from collections.abc import Sequence

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, may, needs
from clinic.audit.record import record_each
from clinic.once.sending import once
from clinic.patients.actions import register_patient, save_contacts
from clinic.patients.duplicates import Alike, hold_registering
from clinic.patients.models import Patient
from clinic.patients.registration import Registration
from clinic.requests import posted

RULED_OUT = "ruled_out"


@require_http_methods(["GET", "HEAD", "POST"])
@needs(Right.EDIT_IDENTITY)
@once
def register(request: HttpRequest) -> HttpResponse:
    """A new patient. Who seems to be the same person is shown; saying no once is enough."""
    if request.method == "POST":
        hold_registering()
    form = Registration(posted(request), clinical=may(request.user, Right.SEE_CLINICAL))
    alike: Sequence[Alike] = ()
    if request.method == "POST":
        sound = form.is_valid()
        alike = form.alike()
        if sound and _all_ruled_out(request, alike):
            try:
                person = _registered(request, form, ruled_out=len(alike))
            except ValidationError as refused:
                # Somebody else was quicker: what was free a moment ago is not any more.
                form.identity.add_error(None, refused)
                alike = form.alike()
            else:
                messages.success(request, "Patient registered.")
                return redirect("patients:record", person.uuid)
    if alike:
        people = [one.patient for one in alike]
        record_each(
            request_or_actor=request, action="compared", subject="patients", patients=people
        )
    return render(request, "patients/register.html", {"form": form, "alike": alike})


def _all_ruled_out(request: HttpRequest, alike: Sequence[Alike]) -> bool:
    """Whether everyone shown was said to be another person: a new likeness is asked about."""
    if request.POST.get("another_person") != "yes":
        return not alike
    said = set(request.POST.getlist(RULED_OUT))
    return {str(one.patient.uuid) for one in alike} <= said


@transaction.atomic
def _registered(request: HttpRequest, form: Registration, *, ruled_out: int) -> Patient:
    person = register_patient(by=request, values=form.values(), ruled_out=ruled_out)
    numbers = form.telephones.numbers
    if numbers or form.contacts.is_filled:
        save_contacts(patient=person, by=request, values=form.contacts.values(), numbers=numbers)
    return person
