"""Trials from before this record: typed in, corrected, removed. The list is trends/tried.py."""

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, needs
from clinic.patients.models import Stoma
from clinic.patients.views.record_form import Question, ask
from clinic.requests import posted
from clinic.trials import actions
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
def add(request: HttpRequest, stoma: UUID) -> HttpResponse:
    one = get_object_or_404(Stoma.objects.select_related("patient"), uuid=stoma)
    form = EarlierTrialForm(posted(request), instance=EarlierTrial(stoma=one))

    def save() -> None:
        key = form.cleaned_data["key"] or form.instance.uuid
        values = form.values()
        actions.add_trial(stoma=one, by=request.user, values=values, key=key, request=request)  # type: ignore[arg-type]

    heading = f"Tried before this record: {one.short_name}"
    words = Question("An earlier trial", "Add", "Earlier trial added.", heading, LEAD)
    return ask(request, one.patient, form, words, save, about=one, back=_list_of(one))


@form_page
@needs(Right.CHART)
def correct(request: HttpRequest, trial: UUID) -> HttpResponse:
    one = _trial(trial)
    form = EarlierTrialForm(posted(request), instance=one)

    def save() -> None:
        values = form.values()
        actions.correct_trial(trial=one, by=request.user, values=values, request=request)  # type: ignore[arg-type]

    words = Question(
        "Correct an earlier trial", "Save", "Corrected.", lead="Earlier words stay in the history."
    )
    back = _list_of(one.stoma)
    return ask(request, one.stoma.patient, form, words, save, about=one, back=back)


@form_page
@needs(Right.CHART)
def remove(request: HttpRequest, trial: UUID) -> HttpResponse:
    one = _trial(trial)
    form = RemoveTrialForm(posted(request))

    def save() -> None:
        why = Removal(form.cleaned_data["why"])
        actions.remove_trial(trial=one, by=request.user, why=why, request=request)  # type: ignore[arg-type]

    words = Question(
        "Remove an earlier trial", "Remove", "Removed. The history keeps it.", lead=one.what_words
    )
    back = _list_of(one.stoma)
    return ask(request, one.stoma.patient, form, words, save, about=one, back=back)
