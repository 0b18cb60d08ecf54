"""Rows recorded with a stoma: each write is atomic, named and audited, and sent twice is once."""

from collections.abc import Mapping
from typing import Any, TypeVar
from uuid import UUID

from django.db import models, transaction
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.patients.models import Stoma

Row = TypeVar("Row", bound=models.Model)


@transaction.atomic
def add_row(
    model: type[Row],
    *,
    stoma: Stoma,
    by: User,
    values: Mapping[str, Any],
    key: UUID,
    request: HttpRequest | None,
) -> Row:
    """One more row. ``key`` was made with the form, so a page sent twice adds one."""
    locked = Stoma.objects.select_for_update().get(pk=stoma.pk)
    if found := model._default_manager.filter(stoma=locked, uuid=key).first():
        return found
    row = model(stoma=locked, uuid=key, recorded_by=by, **values)
    row.full_clean()
    row.save()
    record(request_or_actor=request or by, action="added", subject=row)
    return row


@transaction.atomic
def correct_row(
    row: Row, *, by: User, values: Mapping[str, Any], request: HttpRequest | None
) -> Row:
    """Change what was typed; the history keeps the earlier words."""
    kept = type(row)._default_manager.select_for_update().get(pk=row.pk)
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
def remove_row(row: models.Model, *, by: User, why: str, request: HttpRequest | None) -> None:
    """Take a row off its list, with a reason; history and audit trail keep it."""
    record(request_or_actor=request or by, action="removed", subject=row, detail=why)
    row.delete()
