"""Withdraw what is kept beside a visit: it stays on record and no longer counts."""

from datetime import datetime
from typing import Any

from django.db import transaction
from django.db.models import TextChoices
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record


@transaction.atomic
def withdraw(
    *, row: Any, why: TextChoices, by: User, at: datetime, request: HttpRequest | None = None
) -> None:
    """``row``: of a ``KeptRecord``. Withdrawn twice, the first time holds."""
    found = type(row).objects.select_for_update().get(pk=row.pk)
    if found.withdrawn_at is not None:
        return
    found.withdrawn_at, found.withdrawn_by, found.withdrawn_why = at, by, why
    found.save(update_fields=["withdrawn_at", "withdrawn_by", "withdrawn_why"])
    record(
        request_or_actor=request or by,
        action="withdrew",
        subject=found,
        patient=found.patient,
        detail=str(why.label),
    )
