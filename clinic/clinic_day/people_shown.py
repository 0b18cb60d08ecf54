"""Who is on a day's page: for the audit trail, which says who was shown whom."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from clinic.follow_up.presenters.due import Due
from clinic.patients.models import Patient
from clinic.referrals.models import Alarm, Referral
from clinic.referrals.presenters.waiting import Row
from clinic.tasks.presenters import TaskList, TaskRow
from clinic.visits.models import Visit


def people_shown(page: Mapping[str, Any]) -> list[Patient]:
    """Everyone in any list of the page, once each. ``page``: its template context."""
    found = (person for part in page.values() for one in _rows(part) for person in _of(one))
    return list(dict.fromkeys(found))


def _rows(part: Any) -> Iterable[Any]:
    if isinstance(part, TaskList):
        return (*part.open, *part.done)
    return part if isinstance(part, (list, tuple)) else ()


def _of(row: Any) -> Iterator[Patient]:
    match row:
        case Due():
            yield row.follow_up.stoma.patient
        case Row():
            yield row.referral.assessment.visit.patient
        case Referral() | Alarm():
            yield row.assessment.visit.patient
        case Visit():
            yield row.patient
        case TaskRow():
            about: Patient | None = row.task.patient
            if about is not None:
                yield about
