"""Move the day of a next visit."""

from dataclasses import dataclass
from datetime import date, datetime, time

from django.db import transaction
from django.http import HttpRequest

from clinic import formatting
from clinic.accounts.models import User
from clinic.accounts.permissions import Right, may
from clinic.audit.record import record
from clinic.clinic_details.closed_days import closed_words
from clinic.follow_up.models import FollowUp, Move, MoveReason
from clinic.follow_up.queries import weighs
from clinic.visits.policies import NotAllowedNow

ALREADY_SET = "That is the day already set. Choose another day, or another time on this day."
#: Says nothing of why: the front desk reads it.
NURSE_AGREES = "A nurse has to agree to a later day. Ask the nurse."


@dataclass(frozen=True)
class NewDay:
    """What was asked for. ``was`` is the day shown when it was; ``words`` may be clinical.
    ``at`` None: no time is agreed on the new day, whatever it was before."""

    was: date
    day: date
    reason: MoveReason
    words: str = ""
    late_confirmed: bool = False
    at: time | None = None


def why_not(day: date, *, today: date) -> str:
    """Why no one can be asked to come on ``day``, in words; "" where they can."""
    if day < today:
        return f"{formatting.day(day)} is in the past. Choose today or a later day."
    closed = closed_words(day)
    return f"{closed} Choose another day." if closed else ""


def already_set(follow_up: FollowUp, day: date, at: time | None) -> bool:
    """Whether ``day`` and ``at`` say nothing new. No time on the same day takes none away."""
    return day == follow_up.due and at in (None, follow_up.at)


def later_than_asked(follow_up: FollowUp, day: date) -> int:
    """Days by which ``day`` lies beyond the one the signed visit asked for; 0 where it does not."""
    return max(0, (day - follow_up.asked_for).days)


def nurse_agrees_first(follow_up: FollowUp, by: User) -> bool:
    """Whether ``by`` may move the day no later than it is set: no clinician, and the visit was
    asked for urgently or a referral of the stoma waits for its answer."""
    return not may(by, Right.SEE_CLINICAL) and weighs(follow_up)


@transaction.atomic
def reschedule(
    *,
    follow_up: FollowUp,
    to: NewDay,
    by: User,
    at: datetime,
    today: date,
    request: HttpRequest | None = None,
) -> FollowUp:
    """Write the new day and why. Raises ``NotAllowedNow``, in words, for a visit that has taken
    place, a day somebody else has moved, a closed or past day, a later one that needs a nurse's
    agreement, or one later than the signed visit asked for that no one confirmed."""
    stored = FollowUp.objects.select_for_update(of=("self",)).select_related("stoma__patient")
    found = stored.get(pk=follow_up.pk)
    if refused := _refused(found, to, by, today):
        raise NotAllowedNow(refused)
    was_at = found.at
    Move.objects.create(
        follow_up=found,
        was=found.due,
        became=to.day,
        was_at=was_at,
        became_at=to.at,
        reason=to.reason,
        words=to.words,
        late_confirmed=to.late_confirmed,
        by=by,
        at=at,
    )
    found.due, found.at = to.day, to.at
    found.save(update_fields=["due", "at"])
    record(
        request_or_actor=request or by,
        action="moved next visit",
        subject=found,
        patient=found.stoma.patient,
        detail=f"{to.was}{_with(was_at)} to {to.day}{_with(to.at)}: {to.reason.value}",
    )
    return found


def _with(at: time | None) -> str:
    return f" {formatting.clock(at)}" if at else ""


def _refused(found: FollowUp, to: NewDay, by: User, today: date) -> str:
    if not found.is_open:
        return "This visit has taken place, or the stoma was closed: there is no day to move."
    if found.due != to.was:
        return f"Someone else has moved this visit to {formatting.day(found.due)}."
    if already_set(found, to.day, to.at):
        return ALREADY_SET
    if impossible := why_not(to.day, today=today):
        return impossible
    if to.day > found.due and nurse_agrees_first(found, by):
        return NURSE_AGREES
    if later_than_asked(found, to.day) and not to.late_confirmed:
        return f"Later than the visit asked for ({formatting.day(found.asked_for)}): confirm it."
    return ""
