"""What is known and accepted in a stoma: agreed, and ended."""

from uuid import UUID

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, needs
from clinic.once.sending import once
from clinic.patients import actions
from clinic.patients.forms import plain_helper
from clinic.patients.known_state_form import KnownStateForm
from clinic.patients.models import KnownState, Patient
from clinic.patients.views.record_form import Question, ask
from clinic.requests import posted

form_page = require_http_methods(["GET", "HEAD", "POST"])


class EndForm(forms.Form):
    """Nothing to fill in: pressing the button is the answer."""

    helper = plain_helper()


@form_page
@needs(Right.AGREE_KNOWN)
@once
def known_agree(request: HttpRequest, patient: UUID, stoma: UUID) -> HttpResponse:
    person = get_object_or_404(Patient, uuid=patient)
    one = get_object_or_404(person.stomas.filter(closed_on=None), uuid=stoma)
    form = KnownStateForm(posted(request), instance=KnownState(stoma=one))

    def save() -> None:
        actions.agree_known(stoma=one, by=request, values=form.values())

    words = Question(
        "Known and accepted",
        "Record",
        "Recorded. Visits from that day on are compared with it.",
        f"Known and accepted: {one.short_name}",
        "A plan counts it as usual only while nothing about it is worse, and only until its review "
        "is due.",
    )
    return ask(request, person, form, words, save, about=one)


@form_page
@needs(Right.AGREE_KNOWN)
@once
def known_end(request: HttpRequest, patient: UUID, known: UUID) -> HttpResponse:
    person = get_object_or_404(Patient, uuid=patient)
    one = get_object_or_404(KnownState, uuid=known, stoma__patient=person, ended_on=None)

    def save() -> None:
        actions.end_known(state=one, by=request, on=timezone.localdate())

    words = Question(
        "End what was agreed",
        "It no longer applies",
        "Ended. The record keeps it.",
        f"End: {one.get_kind_display()}",
        one.words,
    )
    return ask(request, person, EndForm(posted(request)), words, save, about=one)
