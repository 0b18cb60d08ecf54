"""Move the day of a next visit."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from clinic import formatting
from clinic.accounts.permissions import Right, may, needs
from clinic.audit.record import record
from clinic.follow_up.actions import nurse_agrees_first
from clinic.follow_up.actions import reschedule as move
from clinic.follow_up.forms import MoveForm
from clinic.follow_up.models import FollowUp
from clinic.follow_up.presenters.rescheduling import move_sentences
from clinic.once.sending import once
from clinic.requests import posted
from clinic.visits.policies import NotAllowedNow


@require_http_methods(["GET", "HEAD", "POST"])
@needs(Right.MOVE_FOLLOW_UP)
@once
def reschedule(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """The day that the signed ``assessment`` set. The front desk sees who and when, not why."""
    stored = FollowUp.objects.select_related("stoma__patient", "set_by__visit")
    found = get_object_or_404(stored.prefetch_related("moves__by"), set_by__uuid=assessment)
    today, clinical = timezone.localdate(), may(request.user, Right.SEE_CLINICAL)
    not_later = nurse_agrees_first(found, request.user)  # type: ignore[arg-type]
    form = MoveForm(
        posted(request), follow_up=found, today=today, clinical=clinical, not_later=not_later
    )
    if request.method == "POST" and found.is_open and form.is_valid():
        try:
            move(
                follow_up=found,
                to=form.new_day(),
                by=request.user,  # type: ignore[arg-type]
                at=timezone.now(),
                today=today,
                request=request,
            )
        except NotAllowedNow as refused:
            form.add_error(None, str(refused))
        else:
            day, at = form.cleaned_data["day"], form.cleaned_data["at"]
            when = formatting.day_and_time(day, at)
            messages.success(request, f"Next visit moved to {day:%A}, {when}.")
            return redirect(f"{reverse('clinic_day:day')}?day={day.isoformat()}")
    record(
        request_or_actor=request,
        action="opened to change",
        subject=found,
        patient=found.stoma.patient,
    )
    page = {
        "form": form,
        "follow_up": found,
        "patient": found.stoma.patient,
        "clinical": clinical,
        "moves": move_sentences(found, clinical=clinical),
    }
    status = 422 if form.errors else 200
    return render(request, "follow_up/reschedule.html", page, status=status)
