"""Sensitivities and stomas: added, corrected, closed by whoever charts."""

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, needs
from clinic.patients import actions
from clinic.patients.forms import (
    CloseStomaForm,
    RemoveSensitivityForm,
    SensitivityForm,
    StomaForm,
)
from clinic.patients.models import Patient, Removal, Sensitivity, Stoma
from clinic.requests import posted

form_page = require_http_methods(["GET", "HEAD", "POST"])


@form_page
@needs(Right.CHART)
def sensitivity_add(request: HttpRequest, patient: UUID) -> HttpResponse:
    person = get_object_or_404(Patient, uuid=patient)
    form = SensitivityForm(posted(request), instance=Sensitivity(patient=person))
    if request.method == "POST" and form.is_valid():
        actions.add_sensitivity(patient=person, by=request, values=form.values())
        return _done(request, person, "Sensitivity added.")
    return _show(request, person, form, "Add a sensitivity", "Add")


@form_page
@needs(Right.CHART)
def sensitivity_remove(request: HttpRequest, patient: UUID, sensitivity: UUID) -> HttpResponse:
    person = get_object_or_404(Patient, uuid=patient)
    one = get_object_or_404(person.sensitivities, uuid=sensitivity)
    form = RemoveSensitivityForm(posted(request))
    if request.method == "POST" and form.is_valid():
        why = Removal(form.cleaned_data["why"])
        actions.remove_sensitivity(sensitivity=one, by=request, why=why)
        return _done(request, person, "Sensitivity removed. The history keeps it.")
    title = f"Remove the sensitivity to {one.material_words.lower()}"
    return _show(request, person, form, title, "Remove")


@form_page
@needs(Right.CHART)
def stoma_add(request: HttpRequest, patient: UUID) -> HttpResponse:
    person = get_object_or_404(Patient, uuid=patient)
    form = StomaForm(posted(request), instance=Stoma(patient=person))
    if request.method == "POST" and form.is_valid():
        actions.add_stoma(patient=person, by=request, values=form.values())
        return _done(request, person, "Stoma added.")
    return _show(request, person, form, "Add a stoma", "Add")


@form_page
@needs(Right.CHART)
def stoma_correct(request: HttpRequest, patient: UUID, stoma: UUID) -> HttpResponse:
    person = get_object_or_404(Patient, uuid=patient)
    one = get_object_or_404(person.stomas, uuid=stoma)
    title = f"Correct: {one.short_name}"
    form = StomaForm(posted(request), instance=one)
    if request.method == "POST" and form.is_valid():
        actions.correct_stoma(stoma=one, by=request, values=form.values())
        return _done(request, person, "Stoma corrected.")
    return _show(request, person, form, title, "Save")


@form_page
@needs(Right.CHART)
def stoma_close(request: HttpRequest, patient: UUID, stoma: UUID) -> HttpResponse:
    person = get_object_or_404(Patient, uuid=patient)
    one = get_object_or_404(person.stomas.filter(closed_on=None), uuid=stoma)
    form = CloseStomaForm(posted(request), instance=one)
    if request.method == "POST" and form.is_valid():
        actions.close_stoma(stoma=one, by=request, on=form.cleaned_data["closed_on"])
        return _done(request, person, "Stoma closed. Its record stays.")
    return _show(request, person, form, f"Close: {one.short_name}", "Close this stoma")


def _done(request: HttpRequest, person: Patient, words: str) -> HttpResponse:
    messages.success(request, words)
    return redirect("patients:record", person.uuid)


def _show(
    request: HttpRequest, person: Patient, form: Any, title: str, button: str
) -> HttpResponse:
    page = {"patient": person, "form": form, "title": title, "button": button}
    return render(request, "patients/form.html", page)
