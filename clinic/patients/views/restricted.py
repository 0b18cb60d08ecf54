"""Say why a restricted record is opened; mark a record as restricted, or free it."""

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, needs
from clinic.once.sending import once
from clinic.patients.models import Patient, Restriction
from clinic.patients.restricted import actions
from clinic.patients.restricted.closing import asks_why, why_page
from clinic.patients.restricted.form import LiftForm, ReasonForm, RestrictForm
from clinic.patients.restricted.reasons import HOURS, is_closed
from clinic.patients.views.record_form import Question, ask
from clinic.requests import posted

form_page = require_http_methods(["GET", "HEAD", "POST"])
RESTRICT = Question(
    "Restrict a record",
    "Restrict this record",
    "The record is restricted.",
    lead="From then on everyone, you too, says why before it opens: "
    f"once in {HOURS} hours. Lists show the name alone. "
    "Only the clinic lead can lift it.",
)
LIFT = Question(
    "Lift a restriction",
    "Lift the restriction",
    "The record opens as any other.",
    lead="The record will open without a reason. The list of who opened it stays.",
)


@asks_why
@form_page
@needs(Right.SEE_IDENTITY)
@once
def open_restricted(request: HttpRequest, patient: UUID) -> HttpResponse:
    """One short form; then the page that was closed."""
    person = get_object_or_404(Patient, uuid=patient)
    if not is_closed(request, person):
        return redirect("patients:record", person.uuid)
    form = ReasonForm(posted(request))
    if request.method == "POST" and form.is_valid():
        actions.open_with_reason(patient=person, by=request, reason=form.in_words())
        record_page = reverse("patients:record", args=[person.uuid])
        return redirect(form.cleaned_data["leads_to"] or record_page)
    return why_page(request, person, "", form, status=422 if form.is_bound else 200)


@form_page
@needs(Right.RESTRICT)
@once
def restrict(request: HttpRequest, patient: UUID) -> HttpResponse:
    """By the nurse who knows, or the lead; it closes at once, for the person who did it too."""
    person = get_object_or_404(Patient, uuid=patient)
    form = RestrictForm(posted(request), instance=Restriction(patient=person))

    def save() -> None:
        actions.restrict(patient=person, by=request, **form.cleaned_data)

    return ask(request, person, form, RESTRICT, save)


@form_page
@needs(Right.LIFT_RESTRICTION)
@once
def lift(request: HttpRequest, patient: UUID) -> HttpResponse:
    """By the lead alone."""
    person = get_object_or_404(Patient, uuid=patient)

    def save() -> None:
        actions.lift(patient=person, by=request)

    return ask(request, person, LiftForm(posted(request)), LIFT, save)
