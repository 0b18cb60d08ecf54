"""Small questions asked of a request."""

from django.http import HttpRequest, QueryDict


def posted(request: HttpRequest) -> QueryDict | None:
    """What was posted, were it nothing at all; None on a first visit, so that no form scolds."""
    return request.POST if request.method == "POST" else None
