"""Sensitivities and stomas: added, corrected, closed by anyone who charts."""

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, needs
from clinic.once.sending import once
from clinic.patients import actions
from clinic.patients.forms import (
    AskedForm,
    CloseStomaForm,
    RemoveSensitivityForm,
    SensitivityForm,
    StomaForm,
)
from clinic.patients.models import Patient, Removal, Sensitivity, Stoma
from clinic.patients.views.record_form import Question, ask
from clinic.requests import posted

form_page = require_http_methods(["GET", "HEAD", "POST"])


@form_page
@needs(Right.CHART)
@once
def sensitivities_asked(request: HttpRequest, patient: UUID) -> HttpResponse:
    """Whether the skin has reacted to anything; a yes goes on to what it was."""
    person = get_object_or_404(Patient, uuid=patient)
    form = AskedForm(posted(request), instance=person)

    def save() -> str:
        none_known: bool | None = form.cleaned_data["no_known_sensitivities"]
        actions.answer_sensitivities(patient=person, by=request, none_known=none_known)
        listed = person.sensitivities.exists()
        return "" if listed or none_known is not False else "patients:sensitivity_add"

    return ask(request, person, form, Question("Sensitivities", "Save", "Answer saved."), save)


@form_page
@needs(Right.CHART)
@once
def sensitivity_add(request: HttpRequest, patient: UUID) -> HttpResponse:
    person = get_object_or_404(Patient, uuid=patient)
    form = SensitivityForm(posted(request), instance=Sensitivity(patient=person))

    def save() -> None:
        actions.add_sensitivity(patient=person, by=request, values=form.values())

    words = Question("Add a sensitivity", "Add", "Sensitivity added.")
    return ask(request, person, form, words, save)


@form_page
@needs(Right.CHART)
@once
def sensitivity_remove(request: HttpRequest, patient: UUID, sensitivity: UUID) -> HttpResponse:
    person = get_object_or_404(Patient, uuid=patient)
    one = get_object_or_404(person.sensitivities, uuid=sensitivity)
    form = RemoveSensitivityForm(posted(request))

    def save() -> None:
        why = Removal(form.cleaned_data["why"])
        actions.remove_sensitivity(sensitivity=one, by=request, why=why)

    done = "Sensitivity removed. The history keeps it."
    heading = f"Remove the sensitivity to {one.material_words.lower()}"
    words = Question("Remove a sensitivity", "Remove", done, heading)
    return ask(request, person, form, words, save, about=one)


@form_page
@needs(Right.CHART)
@once
def stoma_add(request: HttpRequest, patient: UUID) -> HttpResponse:
    person = get_object_or_404(Patient, uuid=patient)
    form = StomaForm(posted(request), instance=Stoma(patient=person))

    def save() -> None:
        actions.add_stoma(patient=person, by=request, values=form.values())

    return ask(request, person, form, Question("Add a stoma", "Add", "Stoma added."), save)


@form_page
@needs(Right.CHART)
@once
def stoma_correct(request: HttpRequest, patient: UUID, stoma: UUID) -> HttpResponse:
    person = get_object_or_404(Patient, uuid=patient)
    one = get_object_or_404(person.stomas, uuid=stoma)
    heading = f"Correct: {one.short_name}"
    form = StomaForm(posted(request), instance=one)

    def save() -> None:
        actions.correct_stoma(stoma=one, by=request, values=form.values())

    words = Question("Correct a stoma", "Save", "Stoma corrected.", heading)
    return ask(request, person, form, words, save, about=one)


@form_page
@needs(Right.CHART)
@once
def stoma_close(request: HttpRequest, patient: UUID, stoma: UUID) -> HttpResponse:
    person = get_object_or_404(Patient, uuid=patient)
    one = get_object_or_404(person.stomas.filter(closed_on=None), uuid=stoma)
    form = CloseStomaForm(posted(request), instance=one)

    def save() -> None:
        actions.close_stoma(stoma=one, by=request, on=form.cleaned_data["closed_on"])

    done = "Stoma closed. Its record stays."
    words = Question("Close a stoma", "Close this stoma", done, f"Close: {one.short_name}")
    return ask(request, person, form, words, save, about=one)
