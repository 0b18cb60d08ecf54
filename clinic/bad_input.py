"""What no part of the site can read, refused in one place before anything else reads it.

A text that came through broken (a NUL, bytes that are no UTF-8) reaches a form as U+FFFD, which
every field of text refuses (``refuse_broken``): the words are beside the field, and what else was
typed is still there. Where there is no field, the request is refused as a whole: 400.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import Any, Final, TypeVar, cast

from django.core.exceptions import (
    BadRequest,
    RequestDataTooBig,
    TooManyFieldsSent,
    TooManyFilesSent,
    ValidationError,
)
from django.http import HttpRequest, HttpResponse, QueryDict, UnreadablePostError

#: What stands for a character that could not be read.
BROKEN: Final = "\ufffd"
BESIDE_A_FIELD: Final = (
    f"A character here could not be read ({BROKEN}). Delete it and type it again."
)
#: Says in a request that it was sent in another charset.
OTHER_CHARSET: Final = "clinic.other_charset"
#: Of the length of a body.
MOST_DIGITS: Final = 15
_CHARSET: Final = re.compile(r";\s*charset\s*=([^;]*)", re.IGNORECASE)
FORM: Final = "application/x-www-form-urlencoded"
TOO_MUCH: Final = (RequestDataTooBig, TooManyFieldsSent, TooManyFilesSent)
Application = TypeVar("Application", bound=Callable[..., Any])


class TooMuchSent(BadRequest):
    """More fields, files or text at once than the site takes."""


def utf8_only(answer: Application) -> Application:
    """The application, with every charset but our own taken out of what it is sent: Django reads
    the query in whatever charset is named, and breaks before anything could refuse it."""

    def answered(environ: dict[str, Any], *rest: Any) -> Any:
        given = environ.get("CONTENT_TYPE", "")
        if found := _CHARSET.search(given):
            environ["CONTENT_TYPE"] = _CHARSET.sub("", given)
            if found[1].strip(' "').lower() not in {"utf-8", "utf8"}:
                environ[OTHER_CHARSET] = True
        return answer(environ, *rest)

    return cast("Application", answered)


class BadInputMiddleware:
    """Before the session is read: a cookie may be broken too."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        try:
            self._read(request)
        except TOO_MUCH as error:
            raise TooMuchSent from error
        except UnreadablePostError as error:  # the connection ended before all was sent
            raise BadRequest from error
        return self.get_response(request)

    @staticmethod
    def _read(request: HttpRequest) -> None:
        if OTHER_CHARSET in request.META or not _plain(request):
            raise BadRequest
        if _broken(request.COOKIES.values()) or any(map(_pair_broken, request.GET.lists())):
            raise BadRequest
        if request.method == "POST" and any(map(_pair_broken, request.POST.lists())):
            request.POST = _marked(request.POST)  # type: ignore[assignment]


def _plain(request: HttpRequest) -> bool:
    """The length is a number. Query and form are percent-encoded, as browsers send them: a bare
    byte would make Django read all of it in another charset."""
    length = request.META.get("CONTENT_LENGTH") or "0"
    if not (length.isascii() and length.isdigit() and len(length) < MOST_DIGITS):
        return False
    form = request.method == "POST" and request.content_type == FORM
    bare = form and not request.body.isascii()
    return not bare and request.META.get("QUERY_STRING", "").isascii()


def _broken(texts: Iterable[str]) -> bool:
    return any("\0" in text for text in texts)


def _pair_broken(pair: tuple[str, list[str]]) -> bool:
    name, values = pair
    return _broken((name, *values))


def _marked(posted: QueryDict) -> QueryDict:
    """The same fields, with the sign for what could not be read in the place of each NUL."""
    marked = QueryDict(mutable=True)
    for name, values in posted.lists():
        marked.setlist(
            name.replace("\0", BROKEN), [value.replace("\0", BROKEN) for value in values]
        )
    marked._mutable = False
    return marked


def refuse_broken(value: object) -> None:
    """A validator of every field of text; some make an id or a number of it first."""
    if isinstance(value, str) and BROKEN in value:
        raise ValidationError(BESIDE_A_FIELD, code="broken")
