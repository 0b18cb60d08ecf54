"""Ask the clinic's own questions at a visit, or type in the paper; withdraw what was mistyped."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.once.sending import once, once_key
from clinic.patient_answers import actions
from clinic.patient_answers.choices import How, Withdrawn
from clinic.patient_answers.forms import AnswersForm, WithdrawForm
from clinic.patient_answers.models import PatientAnswers
from clinic.patient_answers.queries import answered, charted_pain
from clinic.patient_answers.questions import NOT_USED, NOT_VALIDATED, OVER
from clinic.patients.views.record_form import Question
from clinic.patients.views.record_form import ask as ask_form
from clinic.requests import posted
from clinic.visits.actions.withdraw import withdraw as withdraw_row
from clinic.visits.models import Assessment

form_page = require_http_methods(["GET", "HEAD", "POST"])


@form_page
@needs(Right.CHART)
@once
def ask(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """The questions, or the answers where some are on record."""
    rows = Assessment.objects.exclude(visit__state="discarded")
    one = get_object_or_404(
        rows.select_related("visit__patient", "stoma", "output"), uuid=assessment
    )
    known, pain = answered(one), charted_pain(one)
    form = AnswersForm(posted(request), pain_charted=pain is not None)
    here = reverse("patient_answers:ask", args=[one.uuid])
    if request.method == "POST" and form.is_valid():
        try:
            actions.save_answers(
                assessment=one,
                key=once_key(request),
                ratings=form.ratings(),
                how=How(form.cleaned_data["how"]),
                by=request.user,  # type: ignore[arg-type]
                at=timezone.now(),
                request=request,
            )
        except ValidationError as refused:
            form.add_error(None, refused.messages)
        else:
            messages.success(request, "Answers recorded.")
            return redirect(here)
    record(
        request_or_actor=request,
        action="opened answers",
        subject=one,
        patient=one.visit.patient,
    )
    page = {
        "assessment": one,
        "patient": one.visit.patient,
        "form": form,
        "answered": known,
        "pain": pain,
        "over": OVER,
        "not_validated": NOT_VALIDATED,
        "not_used": NOT_USED,
    }
    status = 422 if form.errors else 200
    return render(request, "patient_answers/ask.html", page, status=status)


@form_page
@needs(Right.CHART)
@once
def withdraw(request: HttpRequest, answers: UUID) -> HttpResponse:
    """Answers that no longer count; they stay on record."""
    found = get_object_or_404(
        PatientAnswers.objects.select_related("assessment__visit__patient"), uuid=answers
    )
    if found.withdrawn_at is not None:
        raise Http404
    form = WithdrawForm(posted(request))

    def save() -> None:
        why = Withdrawn(form.cleaned_data["why"])
        withdraw_row(row=found, why=why, by=request.user, at=timezone.now(), request=request)  # type: ignore[arg-type]

    words = Question(
        "Withdraw answers", "Withdraw", "Withdrawn. They stay on record and no longer count."
    )
    back = reverse("patient_answers:ask", args=[found.assessment.uuid])
    person = found.assessment.visit.patient
    return ask_form(request, person, form, words, save, about=found, back=back)
