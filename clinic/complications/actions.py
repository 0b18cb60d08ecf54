"""Every write to the register of complications: atomic, named, audited."""

from collections.abc import Mapping
from typing import Any
from uuid import UUID

from django.db import transaction
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.complications.models import Complication
from clinic.patients.models import Stoma
from clinic.trials.choices import Removal


@transaction.atomic
def add_complication(
    *, stoma: Stoma, by: User, values: Mapping[str, Any], key: UUID, request: HttpRequest | None
) -> Complication:
    """One more row. ``key`` was made with the form, so a page sent twice adds one."""
    locked = Stoma.objects.select_for_update().get(pk=stoma.pk)
    if found := Complication.objects.filter(stoma=locked, uuid=key).first():
        return found
    row = Complication(stoma=locked, uuid=key, recorded_by=by, **values)
    row.full_clean()
    row.save()
    record(request_or_actor=request or by, action="added", subject=row)
    return row


@transaction.atomic
def correct_complication(
    *, row: Complication, by: User, values: Mapping[str, Any], request: HttpRequest | None
) -> Complication:
    """Change what was typed; the history keeps the earlier words."""
    kept = Complication.objects.select_for_update().get(pk=row.pk)
    changed = sorted(name for name, value in values.items() if getattr(kept, name) != value)
    for name, value in values.items():
        setattr(kept, name, value)
    kept.full_clean()
    kept.save()
    # The names of the fields, never their contents.
    detail = ", ".join(changed)
    record(request_or_actor=request or by, action="corrected", subject=kept, detail=detail)
    return kept


@transaction.atomic
def remove_complication(
    *, row: Complication, by: User, why: Removal, request: HttpRequest | None
) -> None:
    """Take a row off the register; history and audit trail keep it."""
    record(request_or_actor=request or by, action="removed", subject=row, detail=why.label)
    row.delete()
