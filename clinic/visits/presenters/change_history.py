"""Who changed what in a visit, and when: read from the tables that nothing can change."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.apps import apps
from django.db import models as db
from pghistory.models import Events

from clinic.accounts.models import User
from clinic.visits.models import Visit
from clinic.visits.value_words import stored_words


@dataclass(frozen=True)
class HistoryLine:
    """One change of one row. ``changes`` are (column, before, after)."""

    at: datetime
    by: str
    what: str
    label: str
    changes: tuple[tuple[str, str, str], ...]


LABELS = {"insert": "Begun", "update": "Changed", "delete": "Removed"}
HOUSEKEEPING = {
    "saved_at",
    "version",
    "id",
    "saved_by_id",
    "position",
}


def history_of(visit: Visit) -> list[HistoryLine]:
    """Every change to the visit, its assessments and their parts, oldest first."""
    rows: list[db.Model] = [visit]
    for assessment in visit.assessments.all():
        rows += [assessment, *assessment.photos.all()]
    events: list[Any] = []
    for row in rows:
        events += list(Events.objects.references(row))
        events += list(Events.objects.tracks(row))
    unique = {event.pgh_slug: event for event in events}
    names = _names(unique.values())
    lines = [_line(event, names) for event in unique.values()]
    return sorted(lines, key=lambda line: line.at)


def _names(events: Any) -> dict[int, str]:
    ids = {(e.pgh_context or {}).get("user") for e in events}
    return {u.pk: u.display_name for u in User.objects.filter(pk__in=[i for i in ids if i])}


def _line(event: Any, names: dict[int, str]) -> HistoryLine:
    by = (event.pgh_context or {}).get("user")
    model = apps.get_model(event.pgh_obj_model)
    changed = (event.pgh_diff or {}).items()
    return HistoryLine(
        at=event.pgh_created_at,
        by=names.get(by, "the program") if by else "the program",
        what=str(model._meta.verbose_name),
        label=LABELS.get(event.pgh_label, event.pgh_label),
        changes=tuple(
            (str(column.verbose_name), stored_words(column, before), stored_words(column, after))
            for name, (before, after) in changed
            if name not in HOUSEKEEPING
            for column in [model._meta.get_field(name)]
        ),
    )
