"""What every template knows of the clinic: its name, telephone and hours."""

from typing import Any

from django.http import HttpRequest

from clinic.clinic_details.current import current


def details(request: HttpRequest) -> dict[str, Any]:
    found = current()
    return {
        "clinic_name": found.name or "Stoma clinic",
        "clinic_phone": found.phone,
        "clinic_hours": found.hours,
    }
