"""Nothing a signed-in person sees may linger in a browser or a proxy."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse


class NoStoreMiddleware:
    """``Cache-Control: no-store`` on every page; static files never pass through here."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        response.headers["Cache-Control"] = "no-store"
        return response
