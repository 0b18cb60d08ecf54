"""Who is due, in words: how late, what stands behind it, whether the day was moved."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from clinic import formatting
from clinic.plans.models import FollowUp, Urgency

#: Urgencies of the last plan that are worth a word beside the name.
SAID = (Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.DAYS, Urgency.TWO_WEEKS)


@dataclass(frozen=True)
class Due:
    """``late`` and ``moved`` are "" where there is nothing to say; ``urgency`` and ``waits`` come
    from the record and are left empty for the front desk."""

    follow_up: FollowUp
    late: str
    moved: str
    urgency: str
    urgency_words: str
    waits: bool
    begun: bool


def due_rows(rows: Iterable[FollowUp], today: date, begun: set[int]) -> list[Due]:
    """One row a visit, in the order given."""
    return [_row(one, today, begun) for one in rows]


def _row(one: FollowUp, today: date, begun: set[int]) -> Due:
    urgency = getattr(one, "urgency", None) or ""
    said = urgency in SAID
    return Due(
        follow_up=one,
        late=days_late(one.due, today),
        moved=moved_words(one),
        urgency=urgency if said else "",
        urgency_words=f"Last plan: {Urgency(urgency).label.lower()}" if said else "",
        waits=bool(getattr(one, "waits", False)),
        begun=one.stoma_id in begun,
    )


def days_late(due: date, today: date) -> str:
    """Such as ``3 days overdue``; "" on the day and before it."""
    days = (today - due).days
    return "" if days <= 0 else f"{days} day{'s' * (days != 1)} overdue"


def moved_words(one: FollowUp) -> str:
    """From which day it was moved, and by how much it is now later than was asked for."""
    moves = list(one.moves.all())
    if not moves:
        return ""
    over = (one.due - one.asked_for).days
    beyond = f", {over} day{'s' * (over != 1)} later than the visit asked for" if over > 0 else ""
    return f"moved from {formatting.day(moves[-1].was)}{beyond}"
