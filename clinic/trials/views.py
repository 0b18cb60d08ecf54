"""Trials from before this record: typed in, corrected, removed. The list is trends/tried.py."""

from typing import Any
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, needs
from clinic.once.sending import once, once_key
from clinic.patients.models import Stoma
from clinic.patients.rows_of_stoma import add_row, correct_row, remove_row
from clinic.patients.views.record_form import Question, ask
from clinic.requests import posted
from clinic.trials.choices import Removal
from clinic.trials.forms import EarlierTrialForm, RemoveTrialForm
from clinic.trials.models import EarlierTrial

form_page = require_http_methods(["GET", "HEAD", "POST"])
LEAD = (
    "What was tried before this record, as far as it is known. Leave open what is not known. A "
    "plan does not begin again with what failed, and says so."
)


def _trial(uuid: UUID) -> EarlierTrial:
    stored = EarlierTrial.objects.select_related("stoma__patient")
    return get_object_or_404(stored, uuid=uuid)


def _list_of(stoma: Stoma) -> str:
    return reverse("trends:tried", args=[stoma.uuid])


@form_page
@needs(Right.CHART)
@once
def add(request: HttpRequest, stoma: UUID) -> HttpResponse:
    one = get_object_or_404(Stoma.objects.select_related("patient"), uuid=stoma)
    form = EarlierTrialForm(posted(request), instance=EarlierTrial(stoma=one))

    def save() -> None:
        key = once_key(request)
        by: Any = request.user
        add_row(EarlierTrial, stoma=one, by=by, values=form.values(), key=key, request=request)

    heading = f"Tried before this record: {one.short_name}"
    words = Question("An earlier trial", "Add", "Earlier trial added.", heading, LEAD)
    return ask(request, one.patient, form, words, save, about=one, back=_list_of(one))


@form_page
@needs(Right.CHART)
@once
def correct(request: HttpRequest, trial: UUID) -> HttpResponse:
    one = _trial(trial)
    form = EarlierTrialForm(posted(request), instance=one)

    def save() -> None:
        by: Any = request.user
        correct_row(one, by=by, values=form.values(), request=request)

    words = Question(
        "Correct an earlier trial", "Save", "Corrected.", lead="Earlier words stay in the history."
    )
    back = _list_of(one.stoma)
    return ask(request, one.stoma.patient, form, words, save, about=one, back=back)


@form_page
@needs(Right.CHART)
@once
def remove(request: HttpRequest, trial: UUID) -> HttpResponse:
    one = _trial(trial)
    form = RemoveTrialForm(posted(request))

    def save() -> None:
        why = Removal(form.cleaned_data["why"])
        by: Any = request.user
        remove_row(one, by=by, why=str(why.label), request=request)

    words = Question(
        "Remove an earlier trial", "Remove", "Removed. The history keeps it.", lead=one.what_words
    )
    back = _list_of(one.stoma)
    return ask(request, one.stoma.patient, form, words, save, about=one, back=back)
