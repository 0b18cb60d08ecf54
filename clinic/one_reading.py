"""What a page needs several times is read from the database once.

Only while a page is shown (GET), which saves nothing but the audit trail: a save may take back what
it wrote, and must see what is stored. A write clears what is remembered there too.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from contextvars import ContextVar
from functools import wraps
from typing import Any, ParamSpec, TypeVar, cast

from django.db import connections
from django.http import HttpRequest, HttpResponse

P = ParamSpec("P")
R = TypeVar("R")

#: A row that is locked is read to see what others wrote.
_MAY_CHANGE = re.compile(r"\b(?:INSERT|UPDATE|DELETE|TRUNCATE)\b", re.IGNORECASE)
_remembered: ContextVar[dict[Any, Any] | None] = ContextVar("remembered", default=None)


def once_a_reading(reads: Callable[P, R]) -> Callable[P, R]:
    """For a function that only reads. Its arguments are ids, days and the like, never rows: two
    rows of one id are equal, and may not say the same. Its answer is not changed by anyone."""

    @wraps(reads)
    def reading(*args: P.args, **kwargs: P.kwargs) -> R:
        kept = _remembered.get()
        if kept is None:
            return reads(*args, **kwargs)
        key = (reads, args, tuple(kwargs.items()))
        if key not in kept:
            kept[key] = reads(*args, **kwargs)
        return cast("R", kept[key])

    return reading


@contextmanager
def one_reading() -> Iterator[None]:
    """Inside, each question is asked once; after a write, again."""
    kept: dict[Any, Any] = {}

    def watch(execute: Any, sql: str, params: Any, many: bool, context: Any) -> Any:
        if _MAY_CHANGE.search(sql):
            kept.clear()
        return execute(sql, params, many, context)

    token = _remembered.set(kept)
    try:
        with ExitStack() as watched:
            for connection in connections.all():
                watched.enter_context(connection.execute_wrapper(watch))
            yield
    finally:
        _remembered.reset(token)


def one_reading_middleware(
    get_response: Callable[[HttpRequest], HttpResponse],
) -> Callable[[HttpRequest], HttpResponse]:
    """Each page that is only looked at is one reading."""

    def answer(request: HttpRequest) -> HttpResponse:
        if request.method not in ("GET", "HEAD"):
            return get_response(request)
        with one_reading():
            return get_response(request)

    return answer
