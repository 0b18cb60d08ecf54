"""Own security, and the pages the sign-in package expects but this clinic keeps closed."""

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe


@login_not_required
@require_safe
def closed(request: HttpRequest) -> HttpResponse:
    """There is no sign-up: the clinic lead adds people."""
    return render(request, "account/signup_closed.html", status=404)


@login_not_required
@require_safe
def forgotten(request: HttpRequest) -> HttpResponse:
    """Nothing goes out by e-mail: the clinic lead sets a new password."""
    return render(request, "account/forgotten.html")
