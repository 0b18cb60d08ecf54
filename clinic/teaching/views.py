"""The checklist of one stoma: read, filled in, an entry withdrawn."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.once.sending import once, once_key
from clinic.patients.models import Stoma
from clinic.patients.views.record_form import Question, ask
from clinic.requests import posted
from clinic.teaching import actions
from clinic.teaching.choices import POINTS_A_VISIT, Withdrawn
from clinic.teaching.forms import TeachingForm, WithdrawForm
from clinic.teaching.missing import missing_on_sheet, teaching_of
from clinic.teaching.models import TaughtPoint
from clinic.visits.models import Visit

form_page = require_http_methods(["GET", "HEAD", "POST"])


def _stoma(uuid: UUID) -> Stoma:
    return get_object_or_404(Stoma.objects.select_related("patient"), uuid=uuid)


@require_safe
@needs(Right.SEE_CLINICAL)
def show(request: HttpRequest, stoma: UUID) -> HttpResponse:
    """Where the checklist is now, and every entry."""
    found = _stoma(stoma)
    record(
        request_or_actor=request,
        action="viewed teaching",
        subject=found,
    )
    entries = TaughtPoint.objects.filter(stoma=found).select_related(
        "recorded_by", "visit", "withdrawal__by"
    )
    page = {
        "stoma": found,
        "patient": found.patient,
        "teaching": teaching_of(found),
        "on_sheet": missing_on_sheet(found),
        "entries": entries.order_by("-on", "-recorded_at", "-id"),
    }
    return render(request, "teaching/show.html", page)


@form_page
@needs(Right.CHART)
@once
def add(request: HttpRequest, stoma: UUID, visit: UUID | None = None) -> HttpResponse:
    """One time of teaching, by itself or during ``visit``."""
    found = _stoma(stoma)
    during = (
        get_object_or_404(
            Visit.objects.exclude(state="discarded"), uuid=visit, assessments__stoma=found
        )
        if visit
        else None
    )
    form = TeachingForm(posted(request), stoma=found, teaching=teaching_of(found), visit=during)
    if request.method == "POST" and form.is_valid():
        added = actions.record_teaching(
            stoma=found,
            session=form.session(once_key(request)),
            points=form.points(),
            by=request.user,  # type: ignore[arg-type]
            request=request,
        )
        count = len(added)
        words = "1 point" if count == 1 else f"{count} points"
        messages.success(request, f"Teaching recorded: {words}." if count else "Recorded before.")
        return redirect("teaching:show", found.uuid)
    record(request_or_actor=request, action="opened teaching", subject=found)
    page = {
        "form": form,
        "stoma": found,
        "patient": found.patient,
        "visit": during,
        "points_a_visit": POINTS_A_VISIT,
    }
    return render(request, "teaching/add.html", page, status=422 if form.errors else 200)


@form_page
@needs(Right.CHART)
@once
def withdraw(request: HttpRequest, point: UUID) -> HttpResponse:
    """An entry that was a mistake: it stays in the list and no longer counts."""
    stored = TaughtPoint.objects.select_related("stoma__patient", "recorded_by")
    one = get_object_or_404(stored, uuid=point, withdrawal=None)
    form = WithdrawForm(posted(request))

    def save() -> None:
        why = Withdrawn(form.cleaned_data["why"])
        actions.withdraw(point=one, why=why, by=request.user, request=request)  # type: ignore[arg-type]

    words = Question(
        "Withdraw an entry",
        "Withdraw",
        "Withdrawn. The list keeps it, and it no longer counts.",
        f"Withdraw: {one.get_item_display()}",
        f"{one.level_words}, {one.who_learned}, recorded by {one.recorded_by.display_name}.",
    )
    back = reverse("teaching:show", args=[one.stoma.uuid])
    return ask(request, one.stoma.patient, form, words, save, about=one, back=back)
