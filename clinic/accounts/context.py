"""What every template knows: the clinic, and what the person signed in may do."""

from typing import Any

from django.conf import settings
from django.http import HttpRequest

from clinic.accounts.permissions import Right, rights_of


def clinic(request: HttpRequest) -> dict[str, Any]:
    """Clinic name, phone and hours; ``rights`` (a set) and ``may`` (right name -> bool).

    Templates ask ``{% if may.SEE_CLINICAL %}``.
    """
    held = rights_of(request.user) if hasattr(request, "user") else frozenset()
    return {
        "clinic_name": settings.CLINIC_NAME or "Stoma clinic",
        "clinic_phone": settings.CLINIC_PHONE,
        "clinic_hours": settings.CLINIC_HOURS,
        "rights": {str(right) for right in held},
        "may": {right.name: right in held for right in Right},
    }
