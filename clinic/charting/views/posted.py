"""What a page posts besides its fields."""

from django.http import HttpRequest


def number(request: HttpRequest, name: str) -> int:
    """A count or an id that was posted; 0 where it is none."""
    typed = request.POST.get(name, "")
    # Longer is no count of saves, and no number of the database's either.
    return int(typed) if typed.isdecimal() and len(typed) <= 8 else 0
