"""Questions asked of tasks. Each is one query."""

from __future__ import annotations

from datetime import date

from django.db.models import Q, QuerySet

from clinic.accounts.models import User
from clinic.patients.models import Patient
from clinic.tasks.models import Task


def of_day(day: date, user: User, *, with_overdue: bool) -> QuerySet[Task]:
    """What is for ``user`` or for all on ``day``: open, or done. ``with_overdue``: also what was
    for an earlier day and is open still, or was done on ``day``."""
    found = Q(day=day)
    if with_overdue:
        found |= Q(day__lt=day, done_at__isnull=True) | Q(day__lt=day, done_at__date=day)
    mine = Q(for_whom=user) | Q(for_whom__isnull=True)
    return _for_list(Task.objects.filter(found & mine))


def of_patient(patient: Patient) -> QuerySet[Task]:
    """Every task of a person, anyone's."""
    return _for_list(Task.objects.filter(patient=patient))


def overdue(today: date) -> QuerySet[Task]:
    """Open ones of an earlier day, for one or for all, the oldest first."""
    return _for_list(Task.objects.filter(day__lt=today, done_at__isnull=True))


def _for_list(rows: QuerySet[Task]) -> QuerySet[Task]:
    return rows.select_related("patient", "stoma", "for_whom", "made_by", "done_by")
