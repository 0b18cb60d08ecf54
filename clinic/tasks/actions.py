"""Every write to a task: atomic, named, audited, and once however often it is pressed."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import transaction
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.patients.models import Patient
from clinic.tasks.models import Task


class ChangedBeforeError(Exception):
    """Somebody has changed this task since the page was opened; nothing was written."""


@transaction.atomic
def add_task(
    *,
    patient: Patient,
    once: UUID,
    values: Mapping[str, Any],
    by: User,
    at: datetime,
    request: HttpRequest | None = None,
) -> Task:
    """A reminder from validated ``values``; ``once`` is the key of the page it was typed on."""
    task = Task(once=once, patient=patient, made_by=by, made_at=at, **values)
    task.full_clean()
    task.save()
    record(
        request_or_actor=request or by,
        action="added task",
        subject=task,
        patient=patient,
        detail=task.kind,
    )
    return task


@transaction.atomic
def mark_done(
    *, task: Task, version: int, by: User, at: datetime, request: HttpRequest | None = None
) -> Task:
    """Done, by whom and when. Pressed twice it is done once.

    Raise ``ChangedBeforeError`` where the page that was pressed is older than the task's last
    change, unless that change was the same press.
    """
    kept = _locked(task)
    if _pressed_before(kept, version, done=True):
        return kept
    kept.done_by, kept.done_at = by, at
    _store(kept)
    record(request_or_actor=request or by, action="did task", subject=kept, detail=kept.kind)
    return kept


@transaction.atomic
def mark_open(*, task: Task, version: int, by: User, request: HttpRequest | None = None) -> Task:
    """Not done after all. The history keeps who said so before. Raises as ``mark_done``."""
    kept = _locked(task)
    if _pressed_before(kept, version, done=False):
        return kept
    kept.done_by = kept.done_at = None
    _store(kept)
    actor = request or by
    record(request_or_actor=actor, action="opened task again", subject=kept, detail=kept.kind)
    return kept


def _locked(task: Task) -> Task:
    return Task.objects.select_for_update(of=("self",)).select_related("patient").get(pk=task.pk)


def _pressed_before(kept: Task, version: int, *, done: bool) -> bool:
    """Whether the task is as asked already, by the very next change after ``version``."""
    if kept.version == version:
        return kept.is_open is not done
    if kept.version == version + 1 and kept.is_open is not done:
        return True
    raise ChangedBeforeError


def _store(kept: Task) -> None:
    kept.version += 1
    kept.full_clean()
    kept.save()
