"""Error pages: plain words, no record contents, refusals on record."""

import sys
from typing import Any
from uuid import UUID

from django.apps import apps
from django.db import InterfaceError, OperationalError
from django.db.models import Model, UUIDField
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.template import loader
from django.views.decorators.csrf import requires_csrf_token

from clinic.audit.record import record
from clinic.bad_input import TooMuchSent
from clinic.once.typed import typed_fields

#: Seconds until a page asks again.
TRY_AGAIN = 5


@requires_csrf_token
def bad_request(request: HttpRequest, exception: Exception) -> HttpResponse:
    too_much = isinstance(exception, TooMuchSent)
    return render(request, "400.html", {"too_much": too_much}, status=400)


@requires_csrf_token
def permission_denied(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Record who was refused which page, then say so.

    Where it is the record's state that forbids it, no one was refused: somebody else came first.
    The page says what happened and gives back what was typed, to the person who typed it.
    """
    if getattr(exception, "is_of_the_record", False):
        page = {"words": str(exception), "typed": typed_fields(request.POST)}
        return render(request, "409.html", page, status=409)
    match = request.resolver_match
    record(
        request_or_actor=request,
        action="was refused",
        subject=match.view_name if match else "page",
        patient=_patient_asked_for(match.kwargs if match else {}),
    )
    return render(request, "403.html", status=403)


def _patient_asked_for(ids: dict[str, Any]) -> Model | None:
    """The patient whose record the refused address is about, by the ids in it; each is unique
    among all kinds of rows. None where it is about no one, or there is no such row."""
    for given in ids.values():
        for model in apps.get_models():
            if isinstance(given, UUID) and (column := _known_by(model)):
                row: Any = model._default_manager.filter(**{column: given}).first()
                if row is not None and (patient := _patient_of(row)) is not None:
                    return patient
    return None


def _known_by(model: type[Model]) -> str | None:
    """The column of the id that an address has."""
    fields = model._meta.concrete_fields
    return next((one.name for one in fields if isinstance(one, UUIDField) and one.unique), None)


def _patient_of(row: Any) -> Model | None:
    """Of the row, or of what it belongs to."""
    if row._meta.label == "patients.Patient":
        return row
    for name in ("patient", "stoma", "visit", "assessment"):
        if (above := getattr(row, name, None)) is not None:
            return _patient_of(above)
    return None


@requires_csrf_token
def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Something that was sent, and what it was about is gone, is given back to its author."""
    sent = request.method == "POST" and request.user.is_authenticated
    page = {"sent": sent, "typed": typed_fields(request.POST) if sent else ()}
    return render(request, "404.html", page, status=404)


@requires_csrf_token
def server_error(request: HttpRequest) -> HttpResponse:
    """Rendered without context: whatever failed may fail again there.

    A database that is away, or that was waited for too long, is no fault of the program: 503, and
    when to try again.
    """
    if isinstance(sys.exc_info()[1], (OperationalError, InterfaceError)):
        away = HttpResponse(loader.get_template("503.html").render(), status=503)
        away.headers["Retry-After"] = str(TRY_AGAIN)
        return away
    return HttpResponse(loader.get_template("500.html").render(), status=500)
