"""Counts every answer, and gives the counts to the holder of the key."""

from __future__ import annotations

import secrets
import time
from collections.abc import Callable
from typing import Final

from django.conf import settings
from django.core.exceptions import MiddlewareNotUsed
from django.db import Error
from django.http import HttpRequest, HttpResponse
from prometheus_client import CONTENT_TYPE_LATEST, REGISTRY, CollectorRegistry, generate_latest
from prometheus_client.multiprocess import MultiProcessCollector

from clinic.metrics.figures import DATABASE_ERRORS, REQUESTS, SAVES, SECONDS

ADDRESS: Final = "/metrics"
#: A visit's save by what came of it; 302 leads on, 422 keeps what is typed until it is corrected.
_OUTCOMES: Final = {200: "saved", 302: "saved", 422: "saved", 409: "conflict"}
_METHODS: Final = ("GET", "HEAD", "POST")
_SAVE: Final = "charting:save"


class MetricsMiddleware:
    """Off unless ``METRICS_KEY`` is set. Without the key, ``/metrics`` is a page like any other
    that is not there."""

    def __init__(self, answer: Callable[[HttpRequest], HttpResponse]) -> None:
        if not settings.METRICS_KEY:
            raise MiddlewareNotUsed
        self.answer = answer

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Answer ``/metrics``; count every other."""
        if request.path_info == ADDRESS and _has_key(request):
            return HttpResponse(_counts(), content_type=CONTENT_TYPE_LATEST)
        began = time.perf_counter()
        answer = self.answer(request)
        page = request.resolver_match.view_name if request.resolver_match else "none"
        # Anyone may send a method of their own: each would be kept for good.
        method = request.method if request.method in _METHODS else "other"
        REQUESTS.labels(page, method, answer.status_code).inc()
        SECONDS.labels(page).observe(time.perf_counter() - began)
        if page == _SAVE and request.method == "POST":
            SAVES.labels(_OUTCOMES.get(answer.status_code, "refused")).inc()
        return answer

    def process_exception(self, request: HttpRequest, exception: Exception) -> None:
        """Only count: the error page is made elsewhere."""
        if isinstance(exception, Error):
            DATABASE_ERRORS.labels(type(exception).__name__).inc()


def _has_key(request: HttpRequest) -> bool:
    given = request.headers.get("Authorization", "")
    return secrets.compare_digest(given.encode(), f"Bearer {settings.METRICS_KEY}".encode())


def _counts() -> bytes:
    """Of all processes of this server where they share a folder (``PROMETHEUS_MULTIPROC_DIR``)."""
    if not settings.METRICS_SHARED:
        return generate_latest(REGISTRY)
    registry = CollectorRegistry()
    MultiProcessCollector(registry)
    return generate_latest(registry)
