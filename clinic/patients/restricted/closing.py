"""The one place that keeps a restricted record closed: before any view of an address with an id.

It looks at the address, not at the page, so that a new page cannot leave it out. What names people
in a list, or takes them from a form, asks ``reasons.restricted`` itself.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse

from clinic.accounts.permissions import may
from clinic.audit.record import record
from clinic.audit.whose import patient_of_address
from clinic.once.typed import typed_fields
from clinic.patients.models import Patient
from clinic.patients.restricted.form import ReasonForm
from clinic.patients.restricted.reasons import HOURS, has_said_why, restricted

View = Callable[..., Any]


def asks_why(view: View) -> View:
    """Mark the page that asks for the reason: it alone is open without one."""
    view.asks_why = True  # type: ignore[attr-defined]
    return view


class RestrictedRecords:
    """Middleware: after those that say who is signed in."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_view(
        self, request: HttpRequest, view: View, _args: Any, parts: Mapping[str, Any]
    ) -> HttpResponse | None:
        """A page that asks why, where the address is about a restricted record; else nothing."""
        right = getattr(view, "right", None)
        let_in = request.user.is_authenticated and (right is None or may(request.user, right))
        if not let_in or not parts or getattr(view, "asks_why", False):
            return None  # who may not come is sent away by the view, and learns nothing here
        closed = restricted()
        patient: Any = patient_of_address(parts) if closed else None
        if patient is None or patient.pk not in closed or has_said_why(request, patient):
            return None
        return why_page(request, patient, request.get_full_path())


def why_page(
    request: HttpRequest,
    patient: Patient,
    leads_to: str,
    form: ReasonForm | None = None,
    status: int = 403,
) -> HttpResponse:
    """Ask why, naming the person and nothing else. What was sent to the closed page is given back
    to the person who typed it, and is not carried out."""
    sent = request.method == "POST" and form is None
    if form is None:
        start = reverse("patients:record", args=[patient.uuid]) if sent else leads_to
        form = ReasonForm(initial={"leads_to": start})
    record(request_or_actor=request, action="was asked why", subject=patient)
    page = {
        "form": form,
        "person": patient,
        "hours": HOURS,
        "sent": sent,
        "typed": typed_fields(request.POST) if sent else (),
    }
    answer = render(request, "patients/restricted/why.html", page, status=status)
    # For the visit page's script: what it could not save waits, and a reason lets it go on.
    answer.headers["Asks-Why"] = reverse("patients:open_restricted", args=[patient.uuid])
    return answer
