"""Every write to the clinic's details: atomic, named, audited."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from django.db import transaction
from django.http import HttpRequest

from clinic import formatting
from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.clinic_details.current import from_environment
from clinic.clinic_details.models import THE_ROW, ClinicDetails, Holiday
from clinic.taken import said_beside

Actor = HttpRequest | User

DAY_IS_GIVEN = "This day is in the list already."


@transaction.atomic
def change_details(*, by: Actor, values: Mapping[str, Any]) -> ClinicDetails:
    """Write the one row; from then on the environment's first values count no more."""
    found = ClinicDetails.objects.select_for_update().filter(pk=THE_ROW).first()
    row = found or from_environment()
    changed = sorted(name for name, value in values.items() if getattr(row, name) != value)
    row.pk = THE_ROW
    for name, value in values.items():
        setattr(row, name, value)
    row.full_clean(validate_unique=False)
    row.save()
    words = ", ".join(changed)
    record(request_or_actor=by, action="changed", subject="clinic details", detail=words)
    return row


@transaction.atomic
def add_holiday(*, by: Actor, day: date, name: str) -> Holiday:
    """One more day on which the clinic is closed."""
    row = Holiday(day=day, name=name)
    row.full_clean()
    with said_beside("day", DAY_IS_GIVEN):
        row.save()
    words = formatting.day(day)
    record(request_or_actor=by, action="added holiday", subject="clinic details", detail=words)
    return row


@transaction.atomic
def remove_holiday(*, by: Actor, holiday: Holiday) -> None:
    """The clinic is open that day after all; the history keeps it."""
    words = formatting.day(holiday.day)
    record(request_or_actor=by, action="removed holiday", subject="clinic details", detail=words)
    holiday.delete()
