"""What every template knows of the person signed in: what they may do."""

from typing import Any

from django.http import HttpRequest

from clinic.accounts.permissions import Right, rights_of


def rights(request: HttpRequest) -> dict[str, Any]:
    """``rights`` (a set) and ``may`` (right name -> bool).

    Templates ask ``{% if may.SEE_CLINICAL %}``.
    """
    held = rights_of(request.user) if hasattr(request, "user") else frozenset()
    return {
        "rights": {str(right) for right in held},
        "may": {right.name: right in held for right in Right},
    }
