"""Every write to the earlier trials: atomic, named, audited."""

from collections.abc import Mapping
from typing import Any
from uuid import UUID

from django.db import transaction
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.patients.models import Stoma
from clinic.trials.choices import Removal
from clinic.trials.models import EarlierTrial


@transaction.atomic
def add_trial(
    *, stoma: Stoma, by: User, values: Mapping[str, Any], key: UUID, request: HttpRequest | None
) -> EarlierTrial:
    """One more row. ``key`` was made with the form, so a page sent twice adds one."""
    locked = Stoma.objects.select_for_update().get(pk=stoma.pk)
    if found := EarlierTrial.objects.filter(stoma=locked, uuid=key).first():
        return found
    row = EarlierTrial(stoma=locked, uuid=key, recorded_by=by, **values)
    row.full_clean()
    row.save()
    record(request_or_actor=request or by, action="added", subject=row)
    return row


@transaction.atomic
def correct_trial(
    *, trial: EarlierTrial, by: User, values: Mapping[str, Any], request: HttpRequest | None
) -> EarlierTrial:
    """Change what was typed; the history keeps the earlier words."""
    kept = EarlierTrial.objects.select_for_update().get(pk=trial.pk)
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
def remove_trial(
    *, trial: EarlierTrial, by: User, why: Removal, request: HttpRequest | None
) -> None:
    """Take a row off the list; history and audit trail keep it."""
    record(request_or_actor=request or by, action="removed", subject=trial, detail=why.label)
    trial.delete()
