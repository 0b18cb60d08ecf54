"""Small questions asked of a request."""

from ipaddress import ip_address

from django.conf import settings
from django.http import HttpRequest, QueryDict

#: Fewer than a column of whole numbers holds.
MOST_DIGITS = 9


def posted(request: HttpRequest) -> QueryDict | None:
    """What was posted, were it nothing at all; None on a first visit, so that no form scolds."""
    return request.POST if request.method == "POST" else None


def client_address(request: HttpRequest) -> str | None:
    """The address the request came from; None without a trusted source.

    Behind a proxy only the entry that our own proxy wrote counts: earlier ones anybody may
    invent, and the connection itself is the proxy's.
    """
    if proxies := settings.ALLAUTH_TRUSTED_PROXY_COUNT:
        told = request.META.get("HTTP_X_FORWARDED_FOR", "").split(",")[-proxies:][0]
    else:
        told = request.META.get("REMOTE_ADDR", "")
    try:
        return str(ip_address(told.strip()))
    except ValueError:
        return None


def whole_number(typed: str | None) -> int | None:
    """A count or an id as it was sent, in plain digits and few enough for a column; None for
    anything else."""
    plain = typed is not None and typed.isascii() and typed.isdigit() and len(typed) <= MOST_DIGITS
    return int(typed) if plain and typed else None
