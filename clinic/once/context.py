"""For the templates: ``{{ once }}`` inside a form makes a key for it."""

from collections.abc import Callable
from uuid import uuid4

from django.http import HttpRequest
from django.utils.html import format_html
from django.utils.safestring import SafeString

from clinic.once.sending import FIELD


def once(request: HttpRequest) -> dict[str, Callable[[], SafeString]]:
    """Another key each time it is written into a page."""
    return {"once": _field}


def _field() -> SafeString:
    return format_html('<input type="hidden" name="{}" value="{}">', FIELD, uuid4())
