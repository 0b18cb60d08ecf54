"""Clinic day: unfinished visits, who is due, what waits for an answer."""

from datetime import timedelta

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, may, needs
from clinic.plans.models import FollowUp, Referral
from clinic.plans.queries import begun_stomas, urgent_first
from clinic.visits.models import Visit

AHEAD = timedelta(days=7)


@require_GET
@needs(Right.SEE_IDENTITY)
def clinic_day(request: HttpRequest) -> HttpResponse:
    """The first page. The desk sees people and dates; clinicians also drafts and referrals."""
    today = timezone.localdate()
    due = (
        FollowUp.objects.open()
        .filter(due__lte=today + AHEAD)
        .select_related("stoma__patient", "set_by__visit")
        .order_by("due")
    )
    clinical = may(request.user, Right.SEE_CLINICAL)
    return render(
        request,
        "plans/day.html",
        {
            "today": today,
            "overdue": [f for f in due if f.due < today],
            "due_today": [f for f in due if f.due == today],
            "coming": [f for f in due if f.due > today],
            "clinical": clinical,
            "drafts": _drafts(request) if may(request.user, Right.CHART) else (),
            "referrals": urgent_first() if clinical else (),
            "answers": Referral.objects.answered_unread(request.user.pk).select_related(
                "assessment__visit__patient", "answered_by"
            ),
            "begun": begun_stomas(),
        },
    )


def _drafts(request: HttpRequest) -> list[Visit]:
    """Unfinished visits, the person's own first."""
    drafts = Visit.objects.drafts().select_related("patient", "clinician", "saved_by")
    return sorted(drafts, key=lambda v: (v.clinician_id != request.user.pk, -v.pk))
