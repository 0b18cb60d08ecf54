"""The next visit of each stoma of one patient."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time
from uuid import UUID

from django.utils import timezone

from clinic.clinic_details.closed_days import as_sentence, closed_among
from clinic.follow_up.models import FollowUp
from clinic.follow_up.presenters.due import days_late
from clinic.follow_up.presenters.rescheduling import move_sentences
from clinic.follow_up.queries import BY_TIME
from clinic.patients.models import Patient


@dataclass(frozen=True)
class NextVisit:
    """``reason`` is "" for anyone who does not see clinical matters; ``late`` "" until the day has
    passed. ``set_by`` names it in addresses. ``closed``: that the clinic is closed then,
    though it was open when the day was set; "" else."""

    due: date
    at: time | None
    today: bool
    late: str
    reason: str
    moves: tuple[str, ...]
    set_by: UUID
    closed: str


def next_visits(patient: Patient, *, clinical: bool) -> dict[int, NextVisit]:
    """By stoma, the earliest first. Four queries; two where none is to come."""
    today = timezone.localdate()
    found = FollowUp.objects.open().filter(stoma__patient=patient).order_by(*BY_TIME)
    rows = list(found.select_related("set_by").prefetch_related("moves__by"))
    ahead = [row.due for row in rows if row.due >= today]
    closed = closed_among(ahead) if ahead else {}
    made: dict[int, NextVisit] = {}
    for row in rows:
        if row.stoma_id in made:
            continue
        made[row.stoma_id] = NextVisit(
            due=row.due,
            at=row.at,
            today=row.due == today,
            late=days_late(row.due, today),
            reason=row.reason if clinical else "",
            moves=move_sentences(row, clinical=clinical),
            set_by=row.set_by.uuid,
            closed=as_sentence(closed.get(row.due, "")),
        )
    return made
