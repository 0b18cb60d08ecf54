"""Who is due, in words: how late, for what reason, and whether the day was moved."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from clinic.clinic_details.closed_days import closed_among
from clinic.follow_up.models import FollowUp
from clinic.follow_up.presenters.rescheduling import move_sentences
from clinic.referrals.models import Urgency

#: Urgencies of the last plan that are worth a word beside the name.
SAID = (Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE, Urgency.DAYS, Urgency.TWO_WEEKS)
#: Of these a list marks the whole entry.
PRESSING = (Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE)


@dataclass(frozen=True)
class Due:
    """``late`` and ``beyond`` are "" where there is nothing to say; ``urgency`` and ``waits`` come
    from the record and are left empty for the front desk."""

    follow_up: FollowUp
    late: str
    beyond: str
    moves: tuple[str, ...]
    urgency: str
    urgency_words: str
    waits: bool
    begun: bool
    #: Why the clinic is closed on a day to come that was set when it was open; "" else.
    closed: str = ""

    @property
    def pressing(self) -> bool:
        """The plan that asked for this visit wanted somebody to look on that day."""
        return self.urgency in PRESSING

    @property
    def moved(self) -> str:
        """Such as ``moved twice``; "" where it was not."""
        return {0: "", 1: "moved once", 2: "moved twice"}.get(
            len(self.moves), f"moved {len(self.moves)} times"
        )


def due_rows(
    rows: Iterable[FollowUp], today: date, begun: set[int], *, clinical: bool
) -> list[Due]:
    """One row a visit, in the order given. ``clinical``: with what the front desk does not see."""
    shown = list(rows)
    closed = closed_among(one.due for one in shown if one.due >= today) if shown else {}
    return [_row(one, today, begun, closed.get(one.due, ""), clinical=clinical) for one in shown]


def _row(one: FollowUp, today: date, begun: set[int], closed: str, *, clinical: bool) -> Due:
    urgency = one.urgency if clinical else ""
    said = urgency in SAID
    return Due(
        follow_up=one,
        late=days_late(one.due, today),
        beyond=beyond_words(one),
        moves=move_sentences(one, clinical=clinical),
        urgency=urgency if said else "",
        urgency_words=f"Last plan: {Urgency(urgency).label.lower()}" if said else "",
        waits=clinical and bool(getattr(one, "waits", False)),
        begun=one.stoma_id in begun,
        closed=f"The clinic is {closed}" if closed else "",
    )


def days_late(due: date, today: date) -> str:
    """Such as ``3 days overdue``; "" on the day and before it."""
    days = (today - due).days
    return "" if days <= 0 else f"{days} day{'s' * (days != 1)} overdue"


def beyond_words(one: FollowUp) -> str:
    """By how much it is now later than was asked for; "" where it is not."""
    over = (one.due - one.asked_for).days
    return f"{over} day{'s' * (over != 1)} later than the visit asked for" if over > 0 else ""
