"""Error pages: plain words, no record contents, refusals on record."""

import sys

from django.db import InterfaceError, OperationalError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.template import loader
from django.views.decorators.csrf import requires_csrf_token

from clinic.audit.record import record
from clinic.audit.whose import patient_of_address
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
        patient=patient_of_address(match.kwargs if match else {}),
    )
    return render(request, "403.html", status=403)


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
