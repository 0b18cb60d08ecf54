"""Two addresses for a program that watches the server: ``/healthz`` and ``/readyz``.

Answered first of all: without sign-in, session or host check, and they say nothing of the record.
``/healthz``: this process answers. ``/readyz``: the database does too, and its tables are those of
this version; else 503.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from django.db import DatabaseError, InterfaceError, connection
from django.db.migrations.executor import MigrationExecutor
from django.http import HttpRequest, HttpResponse

ALIVE: Final = "/healthz"
READY: Final = "/readyz"


class HealthMiddleware:
    """First of all: what comes after may need the database."""

    def __init__(self, answer: Callable[[HttpRequest], HttpResponse]) -> None:
        self.answer = answer
        #: Tables do not go back while a process runs, so they are looked at until they fit.
        self.tables_fit = False

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Answer the two addresses; leave every other to the rest."""
        if request.path_info == ALIVE:
            return _said("alive")
        if request.path_info == READY:
            return self._ready()
        return self.answer(request)

    def _ready(self) -> HttpResponse:
        try:
            with connection.cursor() as cursor:
                cursor.execute("SELECT 1")
            self.tables_fit = self.tables_fit or not _unapplied()
        except (DatabaseError, InterfaceError):
            connection.close()
            return _said("the database does not answer", 503)
        if not self.tables_fit:
            return _said("migrations are missing", 503)
        return _said("ready")


def _unapplied() -> bool:
    executor = MigrationExecutor(connection)
    return bool(executor.migration_plan(executor.loader.graph.leaf_nodes()))


def _said(words: str, status: int = 200) -> HttpResponse:
    answer = HttpResponse(words + "\n", status=status, content_type="text/plain; charset=utf-8")
    answer.headers["Cache-Control"] = "no-store"
    return answer
