"""What holds for every page: nothing lingers in a browser or a proxy, and a session that is
over, locked, or has something to do first opens nothing else."""

from collections.abc import Callable
from urllib.parse import urlencode

from django.contrib.auth import logout
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import Resolver404, resolve, reverse

from clinic.accounts import first_steps, lock, session_limits
from clinic.accounts.models import User

GetResponse = Callable[[HttpRequest], HttpResponse]


class NoStoreMiddleware:
    """``Cache-Control: no-store`` on every page; static files never pass through here."""

    def __init__(self, get_response: GetResponse) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        response.headers["Cache-Control"] = "no-store"
        return response


def session_middleware(get_response: GetResponse) -> GetResponse:
    """Of a signed-in person. A page that is not open leads to the one that opens it."""

    def answer(request: HttpRequest) -> HttpResponse:
        user = request.user
        return (isinstance(user, User) and _first(request, user)) or get_response(request)

    return answer


def _first(request: HttpRequest, user: User) -> HttpResponse | None:
    session, name = request.session, _name_of(request)
    if session_limits.is_over(session, user):
        logout(request)
        return None
    if lock.is_locked(session):
        # A locked session counts as not used.
        return None if name in lock.OPENS else _lead_to("account_locked", request)
    session_limits.renew(session)
    steps = first_steps.due(request)
    # The page's header then offers nothing that would lead back here.
    request.first_steps_due = bool(steps)  # type: ignore[attr-defined]
    if steps and not first_steps.opens(name):
        return _lead_to("accounts:first_steps", request)
    return None


def _name_of(request: HttpRequest) -> str:
    try:
        return resolve(request.path_info).view_name
    except Resolver404:
        return ""


def _lead_to(page: str, request: HttpRequest) -> HttpResponse:
    """Back to what was asked for afterwards, if it was a page."""
    back = f"?{urlencode({'next': request.get_full_path()})}" if request.method == "GET" else ""
    return HttpResponseRedirect(reverse(page) + back)
