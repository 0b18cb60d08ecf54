"""Referrals that wait for an answer, and answering one."""

from uuid import UUID

from django import forms
from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_http_methods

from clinic.accounts.permissions import Right, may, needs
from clinic.audit.record import record
from clinic.plans.actions.answer import answer_referral
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


@require_http_methods(["GET", "POST"])
@needs(Right.SEE_CLINICAL)
def referral(request: HttpRequest, referral: UUID) -> HttpResponse:
    """One referral; whoever may answer, answers here."""
    found = get_object_or_404(
        Referral.objects.select_related("assessment__visit__patient", "assessment__stoma"),
        uuid=referral,
    )
    patient = found.assessment.visit.patient
    form = AnswerForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and not may(request.user, Right.ANSWER_REFERRAL):
        raise PermissionDenied
    if form.is_bound and form.is_valid():
        answer_referral(
            referral=found,
            answer=form.cleaned_data["answer"],
            by=request.user,  # type: ignore[arg-type]
            at=timezone.now(),
            request=request,
        )
        messages.success(request, "Answer sent to the nurse.")
        return redirect("plans:referrals")
    record(request_or_actor=request, action="viewed", subject=found, patient=patient)
    return render(
        request,
        "plans/referral.html",
        {"referral": found, "patient": patient, "form": form},
        status=422 if form.errors else 200,
    )
