"""Clinic day: draft visits, who is due, what waits for an answer. A user who answers referrals
finds those first, the others who is due."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django.db.models import Case, IntegerField, Q, Value, When
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_GET

from clinic import capped_count
from clinic.accounts.permissions import Right, may, needs
from clinic.audit.record import record_listed
from clinic.clinic_day import queries as clinic_day_queries
from clinic.clinic_day.people_shown import people_shown
from clinic.clinic_details.closed_days import closed_words
from clinic.documents.desk import people_of_the_day, prints_day
from clinic.follow_up import queries as follow_up_queries
from clinic.follow_up.models import FollowUp
from clinic.follow_up.presenters.due import due_rows
from clinic.paging import Leaf, leaf
from clinic.referrals import queries as referrals_queries
from clinic.referrals.models import Referral
from clinic.referrals.models.referral import ReferralQuerySet
from clinic.referrals.presenters.waiting import rows_of
from clinic.tasks.presenters import tasks_of_day
from clinic.visits.models import Visit

AHEAD = timedelta(days=7)
BESIDE = 10
#: More than one clinic sees in a day, so that a day is one page.
A_DAY = 40
DRAFTS = 20


@require_GET
@needs(Right.SEE_IDENTITY)
def clinic_day(request: HttpRequest) -> HttpResponse:
    """The first page, or another day with ``?day=``. The desk sees people and dates alone."""
    today = timezone.localdate()
    day = asked_day(request, today)
    clinical = may(request.user, Right.SEE_CLINICAL)
    leads = day == today and may(request.user, Right.ANSWER_REFERRAL)
    page = {
        "today": today,
        "day": day,
        "is_today": day == today,
        "before": day - timedelta(days=1),
        "after": day + timedelta(days=1),
        "clinical": clinical,
        "closed": closed_words(day),
        "tasks": tasks_of_day(request, day),
        "leads": leads,
        "prints_day": prints_day(request, day),
        "desk_prints": frozenset() if clinical else people_of_the_day(),
        **_due(request, day, today, clinical=clinical),
        **(_waiting(request, today, asked_apart=leads) if clinical else {}),
        **(_asked(request) if leads else {}),
        **(_drafts(request) if may(request.user, Right.CHART) else {}),
    }
    people = people_shown(page)
    record_listed(request=request, action="listed", subject="clinic day", patients=people)
    return render(request, "clinic_day/day.html", page)


def asked_day(request: HttpRequest, today: date) -> date:
    """The day in the address, else ``today``; nonsense is no reason for an error."""
    try:
        day = date.fromisoformat(request.GET.get("day", ""))
    except ValueError:
        return today
    # The ends of the calendar have no day before or after them.
    return day if date.min < day < date.max else today


def _due(request: HttpRequest, day: date, today: date, *, clinical: bool) -> dict[str, Any]:
    """On that day; today also anyone who is overdue, and the days ahead."""
    everyone = follow_up_queries.due(clinical=clinical)
    leaves: dict[str, Leaf[FollowUp]] = {
        "due": leaf(everyone.filter(due=day), request.GET.get("page"), size=A_DAY)
    }
    overdue = everyone.filter(due__lt=today)
    if clinical:  # the order would tell the desk which of them are urgent
        overdue = follow_up_queries.by_danger(overdue)
    shown: dict[str, Any] = {}
    if day == today:
        leaves["overdue"] = leaf(overdue, request.GET.get("overdue"))
        coming = everyone.filter(due__gt=today, due__lte=today + AHEAD)
        leaves["coming"] = leaf(coming, request.GET.get("coming"))
        shown["overdue_count"] = capped_count.counted(FollowUp.objects.open().filter(due__lt=today))
    stomas = [f.stoma_id for one in leaves.values() for f in one.rows]
    begun = clinic_day_queries.begun(stomas) if clinical and stomas else set()
    for name, one in leaves.items():
        shown[name] = one
        shown[f"{name}_rows"] = due_rows(one.rows, today, begun, clinical=clinical)
    shown["due_count"] = capped_count.counted(FollowUp.objects.open().filter(due=day))
    return shown


def _asked(request: HttpRequest) -> dict[str, Any]:
    """What waits for an answer of this person, most urgent first, then the oldest."""
    of_them = referrals_queries.asked_of(request.user)  # type: ignore[arg-type]
    asked = leaf(referrals_queries.waiting().filter(of_them), request.GET.get("asked"))
    return {
        "asked": asked,
        "asked_rows": rows_of(asked.rows, timezone.now()),
        "asked_count": capped_count.counted(Referral.objects.unanswered().filter(of_them)),
    }


def _waiting(request: HttpRequest, today: date, *, asked_apart: bool) -> dict[str, Any]:
    """What has no answer, what presses, and answers not read yet by the person who asked. With
    ``asked_apart``, what is asked of this person is in a list of its own."""
    now = timezone.now()
    unread = Referral.objects.answered_unread(request.user.pk).order_by("-answered_at")
    others = ~referrals_queries.asked_of(request.user) if asked_apart else Q()  # type: ignore[arg-type]
    waiting = list(referrals_queries.waiting().filter(others)[: BESIDE + 1])
    pressing = referrals_queries.pressing(today)
    return {
        "pressing": rows_of(referrals_queries.for_list(pressing)[:BESIDE], now),
        "pressing_more": _beyond_shown(pressing),
        "referrals": rows_of(waiting[:BESIDE], now),
        "more_referrals": len(waiting) > BESIDE,
        "alarms": list(
            referrals_queries.alarms().select_related(
                "assessment__visit__patient", "assessment__visit__clinician"
            )
        ),
        "answers": list(referrals_queries.for_list(unread)[:BESIDE]),
    }


def _beyond_shown(rows: ReferralQuerySet) -> capped_count.Count:
    """How many are in the list behind the ``BESIDE`` that are shown."""
    counted = rows.order_by()[: BESIDE + capped_count.COUNT_UP_TO + 1].count()
    return capped_count.Count(max(0, counted - BESIDE))


def _drafts(request: HttpRequest) -> dict[str, Any]:
    """Drafts, the person's own first; says whether there are more."""
    own = Case(
        When(clinician_id=request.user.pk, then=Value(0)),
        default=Value(1),
        output_field=IntegerField(),
    )
    drafts = Visit.objects.drafts().select_related("patient", "clinician", "saved_by")
    drafts = drafts.prefetch_related("assessments__stoma")
    found = list(drafts.order_by(own, "-pk")[: DRAFTS + 1])
    return {"drafts": found[:DRAFTS], "more_drafts": len(found) > DRAFTS}
