"""What was corrected or removed on the list of earlier trials, from its unchangeable history."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from clinic.accounts.models import User
from clinic.patients.models import Stoma
from clinic.trials.models import EarlierTrial

#: As the history calls it -> what is said.
LABELS = {"insert": "Added", "update": "Corrected to", "delete": "Removed"}


@dataclass(frozen=True)
class ChangeLine:
    """One change: when, by whom, and the row as it was then."""

    at: datetime
    by: str
    did: str
    what: str


def changes_of(stoma: Stoma) -> list[ChangeLine]:
    """Of rows that were corrected or removed, every version, the oldest first. Two queries."""
    history: Any = EarlierTrial.pgh_event_model  # type: ignore[attr-defined]
    events = list(
        history.objects.filter(stoma=stoma).select_related("pgh_context").order_by("pgh_id")
    )
    changed = {event.uuid for event in events if event.pgh_label != "insert"}
    people = {_who(event) for event in events}
    names = {u.pk: u.display_name for u in User.objects.filter(pk__in=people)}
    return [_line(event, names) for event in events if event.uuid in changed]


def _line(event: Any, names: dict[int, str]) -> ChangeLine:
    columns = [f.attname for f in EarlierTrial._meta.concrete_fields if f.name != "id"]
    then = EarlierTrial(**{name: getattr(event, name) for name in columns})
    words = f"{then.what_words} ({then.when_words}; {then.get_outcome_display().lower()})"
    who = names.get(_who(event), "the program")
    return ChangeLine(event.pgh_created_at, who, LABELS[event.pgh_label], words)


def _who(event: Any) -> int:
    """0 where no one was signed in."""
    return int((event.pgh_context and event.pgh_context.metadata.get("user")) or 0)
