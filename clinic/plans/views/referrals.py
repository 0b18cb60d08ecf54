"""Referrals that wait for an answer, and answering one."""

from uuid import UUID

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.plans.actions.answer import answer_referral, mark_read
from clinic.plans.models import Referral
from clinic.plans.queries import urgent_first


class AnswerForm(forms.Form):
    answer = forms.CharField(
        label="Answer",
        widget=forms.Textarea(attrs={"rows": 5}),
        max_length=4000,
        error_messages={"required": "Write the answer."},
    )


@require_GET
@needs(Right.SEE_CLINICAL)
def referrals(request: HttpRequest) -> HttpResponse:
    """Unanswered, most urgent first; the latest answers below."""
    answered = (
        Referral.objects.filter(answered_at__isnull=False)
        .select_related("assessment__visit__patient", "answered_by")
        .order_by("-answered_at")[:20]
    )
    return render(
        request, "plans/referrals.html", {"waiting": urgent_first(), "answered": answered}
    )


@require_GET
@needs(Right.SEE_CLINICAL)
def referral(request: HttpRequest, referral: UUID) -> HttpResponse:
    """One referral; whoever may answer finds the form here."""
    found = _referral(referral)
    mark_read(referral=found, by=request.user, at=timezone.now())  # type: ignore[arg-type]
    return _show(request, found, AnswerForm())


@require_POST
@needs(Right.ANSWER_REFERRAL)
def answer(request: HttpRequest, referral: UUID) -> HttpResponse:
    """Send the answer to the nurse."""
    found, form = _referral(referral), AnswerForm(request.POST)
    if found.answered_at is not None:
        messages.info(request, "This referral has been answered already.")
        return redirect("plans:referral", found.uuid)
    if not form.is_valid():
        return _show(request, found, form)
    answer_referral(
        referral=found,
        answer=form.cleaned_data["answer"],
        by=request.user,  # type: ignore[arg-type]
        at=timezone.now(),
        request=request,
    )
    messages.success(request, "Answer sent to the nurse.")
    return redirect("plans:referrals")


def _referral(uuid: UUID) -> Referral:
    return get_object_or_404(
        Referral.objects.select_related("assessment__visit__patient", "assessment__stoma"),
        uuid=uuid,
    )


def _show(request: HttpRequest, found: Referral, form: AnswerForm) -> HttpResponse:
    patient = found.assessment.visit.patient
    record(request_or_actor=request, action="viewed", subject=found, patient=patient)
    return render(
        request,
        "plans/referral.html",
        {"referral": found, "patient": patient, "form": form},
        status=422 if form.errors else 200,
    )
