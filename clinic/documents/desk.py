"""Whose papers the front desk prints, and how it gets them: it sees no clinical reason on screen.

Papers of people of the day, or of somebody recalled by the whole record number or by name and day
of birth. Each is a file to print, never a page: looked at by the address, before any view, so that
no new paper can leave it out.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, timedelta
from typing import Any

from django.db.models import Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from clinic.accounts.permissions import Right, may
from clinic.audit.record import record
from clinic.audit.whose import patient_of_address
from clinic.clinic_details.closed_days import closed_days_round
from clinic.follow_up.models import FollowUp
from clinic.one_reading import once_a_reading
from clinic.patients.found_beyond_doubt import RECALLED
from clinic.patients.models import Patient
from clinic.referrals.queries import day_began
from clinic.visits.choices import VisitState
from clinic.visits.models import Visit

View = Callable[..., Any]
ONE = timedelta(days=1)


class DeskPapers:
    """Middleware: after the one that keeps restricted records closed."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """A paper goes to the desk as a file: the server shows it on no page of theirs."""
        response = self.get_response(request)
        shown = str(response.headers.get("Content-Disposition", ""))
        if shown.startswith("inline") and is_desk(request):
            response.headers["Content-Disposition"] = shown.replace("inline", "attachment", 1)
        return response

    def process_view(
        self, request: HttpRequest, view: View, _args: Any, parts: Mapping[str, Any]
    ) -> HttpResponse | None:
        if getattr(view, "right", None) != Right.PRINT or not parts or not is_desk(request):
            return None
        patient: Any = patient_of_address(parts)
        if patient is None or prints_for(request, patient):
            return None
        record(request_or_actor=request, action="asked for papers", subject=patient)
        page = "documents/printed/find_first.html"
        return render(request, page, {"person": patient}, status=409)


def is_desk(request: HttpRequest) -> bool:
    """Somebody who prints and sees nothing clinical."""
    user = request.user
    return may(user, Right.PRINT) and not may(user, Right.SEE_CLINICAL)


def prints_for(request: HttpRequest, patient: Patient) -> bool:
    """Whether this person prints papers of ``patient`` now."""
    if not is_desk(request):
        return may(request.user, Right.PRINT)
    return patient.pk in people_of_the_day() or RECALLED.is_kept(request, patient)


def prints_day(request: HttpRequest, day: date) -> bool:
    """Whether this person prints the sheets of ``day``, or of one of its people."""
    return may(request.user, Right.PRINT) and (not is_desk(request) or day in days_of_papers())


@once_a_reading
def days_of_papers() -> tuple[date, ...]:
    """Today, and the next day that the clinic is open: its papers are laid out the evening
    before."""
    today = timezone.localdate()
    following = closed_days_round(today).next_open(today + ONE)
    return (today, following) if following else (today,)


@once_a_reading
def people_of_the_day() -> frozenset[int]:
    """Who is due on a day of papers, and who was seen or had a visit signed today."""
    today = timezone.localdate()
    due = FollowUp.objects.open().filter(due__in=days_of_papers())
    limits = (day_began(today), day_began(today + ONE))
    at = Q(happened_at__gte=limits[0], happened_at__lt=limits[1])
    signed = Q(signed_at__gte=limits[0], signed_at__lt=limits[1])
    seen = Visit.objects.filter(at | signed).exclude(state=VisitState.DISCARDED)
    return frozenset(due.values_list("stoma__patient_id", flat=True)) | frozenset(
        seen.values_list("patient_id", flat=True)
    )
