"""Chart a repeat, see both readings, withdraw one; the estimate for the lead."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.measuring_error.forms import RepeatForm, WithdrawForm
from clinic.measuring_error.shown import shown
from clinic.once.sending import once, once_key
from clinic.paging import leaf
from clinic.patients.views.record_form import Question, ask
from clinic.plans.measuring_error import LEAST, estimates_now
from clinic.plans.own_figures import own_figures
from clinic.repeats import actions
from clinic.repeats.choices import Withdrawn
from clinic.repeats.models import RepeatMeasurement
from clinic.repeats.queries import stored_repeats
from clinic.requests import posted
from clinic.visits.actions.withdraw import withdraw as withdraw_row
from clinic.visits.queries import with_parts

form_page = require_http_methods(["GET", "HEAD", "POST"])
A_PAGE = 50


def _repeat(uuid: UUID) -> RepeatMeasurement:
    return get_object_or_404(stored_repeats(), uuid=uuid)


@form_page
@needs(Right.CHART)
@once
def chart(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """A second reading; nothing on this page shows the first."""
    one = get_object_or_404(with_parts(), uuid=assessment)
    now, person = timezone.now(), one.visit.patient
    own = own_figures(one)
    refused = actions.why_no_repeat(one.visit, now)
    if not refused and all(value is None for value in own.values()):
        refused = (
            "The visit has no figure of its own that was measured today. Chart the visit first; a "
            "size from a photo or taken over from the last visit does not count."
        )
    form = RepeatForm(
        posted(request),
        assessment=one,
        own=own,
        user=request.user,  # type: ignore[arg-type]
        now=now,
    )
    if request.method == "POST" and not refused and form.is_valid():
        try:
            repeat = actions.save_repeat(
                assessment=one,
                key=once_key(request),
                values=form.values(),
                own=own,
                by=request.user,  # type: ignore[arg-type]
                at=now,
                request=request,
            )
        except ValidationError as wrong:
            form.add_error(None, wrong.messages)
        else:
            messages.success(request, "Repeat recorded. The visit's own figures stay as they are.")
            return redirect("measuring_error:show", repeat.uuid)
    record(request_or_actor=request, action="opened repeat", subject=one, patient=person)
    page = {
        "assessment": one,
        "patient": person,
        "form": form,
        "refused": refused,
        # Neither the visit nor the record: both show its figures.
        "cancel": reverse("clinic_day:day"),
    }
    status = 422 if request.method == "POST" else 200
    return render(request, "measuring_error/chart.html", page, status=status)


@require_safe
@needs(Right.SEE_CLINICAL)
def show(request: HttpRequest, repeat: UUID) -> HttpResponse:
    """Both readings side by side."""
    found = _repeat(repeat)
    record(request_or_actor=request, action="viewed", subject=found)
    page = {"repeat": found, "shown": shown(found), "patient": found.patient}
    return render(request, "measuring_error/show.html", page)


@form_page
@needs(Right.CHART)
@once
def withdraw(request: HttpRequest, repeat: UUID) -> HttpResponse:
    """A repeat that no longer counts; it stays on record."""
    found = _repeat(repeat)
    if found.withdrawn_at is not None:
        raise Http404
    form = WithdrawForm(posted(request))

    def save() -> None:
        why = Withdrawn(form.cleaned_data["why"])
        withdraw_row(row=found, why=why, by=request.user, at=timezone.now(), request=request)  # type: ignore[arg-type]

    words = Question(
        "Withdraw a repeat", "Withdraw", "Withdrawn. It stays on record and no longer counts."
    )
    back = reverse("measuring_error:show", args=[found.uuid])
    return ask(request, found.assessment.visit.patient, form, words, save, about=found, back=back)


@require_safe
@needs(Right.SEE_MEASURES)
def clinic(request: HttpRequest) -> HttpResponse:
    """The estimate and the repeats it rests on, for the lead. No patient is named."""
    two, one = estimates_now()
    page = leaf(
        stored_repeats().order_by("-recorded_at", "-pk"), request.GET.get("page"), size=A_PAGE
    )
    record(request_or_actor=request, action="viewed", subject="measuring error")
    context = {
        "two": two,
        "one": one,
        "least": LEAST,
        "repeats": [shown(row) for row in page.rows],
        "leaf": page,
    }
    return render(request, "measuring_error/clinic.html", context)
