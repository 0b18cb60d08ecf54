"""What a page posts besides its fields."""

from django.http import HttpRequest

from clinic.requests import whole_number


def number(request: HttpRequest, name: str) -> int:
    """A count or an id that was posted; 0 where it is none."""
    return whole_number(request.POST.get(name)) or 0
