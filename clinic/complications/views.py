"""The register of complications of a stoma: the list, and what is recorded in it."""

from typing import Any
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.complications.choices import Kind
from clinic.complications.forms import ComplicationForm, RemoveForm
from clinic.complications.models import Complication
from clinic.complications.seen_at_visits import seen_at_visits
from clinic.once.sending import once, once_key
from clinic.patients.models import Stoma
from clinic.patients.rows_of_stoma import add_row, correct_row, remove_row
from clinic.patients.views.record_form import Question, ask
from clinic.plans.complication_rules import hernia_class_sources
from clinic.requests import posted
from clinic.trials.choices import Removal

form_page = require_http_methods(["GET", "HEAD", "POST"])
LEAD = (
    "What happened, as far as it is known; leave open what is not. The grade goes by what had to "
    "be done. A hernia's class follows from what CT or an operation measured, and from nothing "
    "else."
)


def _stoma(uuid: UUID) -> Stoma:
    return get_object_or_404(Stoma.objects.select_related("patient"), uuid=uuid)


def _row(uuid: UUID) -> Complication:
    return get_object_or_404(Complication.objects.select_related("stoma__patient"), uuid=uuid)


def _list_of(stoma: Stoma) -> str:
    return reverse("complications:of_stoma", args=[stoma.uuid])


@require_safe
@needs(Right.SEE_CLINICAL)
def of_stoma(request: HttpRequest, stoma: UUID) -> HttpResponse:
    """What is on the register, and what visits found."""
    one = _stoma(stoma)
    record(request_or_actor=request, action="viewed complications", subject=one)
    page = {
        "patient": one.patient,
        "stoma": one,
        "rows": Complication.objects.filter(stoma=one).select_related("recorded_by"),
        "seen": seen_at_visits(one),
        "sources": hernia_class_sources(),
    }
    return render(request, "complications/of_stoma.html", page)


@form_page
@needs(Right.CHART)
@once
def add(request: HttpRequest, stoma: UUID) -> HttpResponse:
    """``?kind=``: what a visit found, to be graded."""
    one = _stoma(stoma)
    kind = request.GET.get("kind", "")
    row = Complication(stoma=one, kind=kind if kind in Kind.values else "")
    form = ComplicationForm(posted(request), instance=row)

    def save() -> None:
        key = once_key(request)
        by: Any = request.user
        add_row(Complication, stoma=one, by=by, values=form.values(), key=key, request=request)

    heading = f"A complication: {one.short_name}"
    words = Question("A complication", "Add", "Complication added.", heading, LEAD)
    return ask(request, one.patient, form, words, save, about=one, back=_list_of(one))


@form_page
@needs(Right.CHART)
@once
def correct(request: HttpRequest, complication: UUID) -> HttpResponse:
    one = _row(complication)
    form = ComplicationForm(posted(request), instance=one)

    def save() -> None:
        by: Any = request.user
        correct_row(one, by=by, values=form.values(), request=request)

    words = Question(
        "Correct a complication", "Save", "Corrected.", lead="Earlier words stay in the history."
    )
    back = _list_of(one.stoma)
    return ask(request, one.stoma.patient, form, words, save, about=one, back=back)


@form_page
@needs(Right.CHART)
@once
def remove(request: HttpRequest, complication: UUID) -> HttpResponse:
    one = _row(complication)
    form = RemoveForm(posted(request))

    def save() -> None:
        why = Removal(form.cleaned_data["why"])
        by: Any = request.user
        remove_row(one, by=by, why=str(why.label), request=request)

    lead = f"{one.get_kind_display()}, {one.when_words}"
    words = Question("Remove a complication", "Remove", "Removed. The history keeps it.", lead=lead)
    back = _list_of(one.stoma)
    return ask(request, one.stoma.patient, form, words, save, about=one, back=back)
