"""The day on which a plan asks to see the person again, moved off days the clinic is closed.

A day that is moved says so. It goes to the next open day; where a danger, or the plan itself, asks
for a day at the latest, to the open day before, while there is one after the visit.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from django.conf import settings
from django.utils import timezone

from clinic import formatting
from clinic.clinic_details.closed_days import ClosedDays, closed_days_round
from clinic.visits.models import Assessment
from planning import Plan
from planning.evidence.thresholds import FOLLOW_SKIN
from planning.results.plan import Urgency

BEFORE = "moved to the open day before, as it is asked for at the latest"
AFTER = "moved to the next open day"
LATER = "moved to the next open day, later than the plan asks. Agree who looks or calls until then"


@dataclass(frozen=True)
class ProposedDay:
    """``moved``: why it is not the day the plan asked for, as a sentence; "" where it is."""

    day: date
    moved: str = ""


def proposed_day(plan: Plan, assessment: Assessment) -> ProposedDay:
    """Of a signed plan the day as it was signed: days closed since then do not change it."""
    visit_day = timezone.localdate(assessment.visit.happened_at)
    asked = visit_day + timedelta(days=plan.follow_up.in_days)
    snapshot = getattr(assessment, "plan", None)
    if snapshot is None:
        closed = closed_days_round(asked)
        return moved_off(asked, closed, after=visit_day, latest=at_the_latest(plan))
    if snapshot.planned_day:
        return ProposedDay(snapshot.planned_day, snapshot.planned_day_moved)
    return ProposedDay(_as_once(asked, after=visit_day))


def planned_day(plan: Plan, assessment: Assessment) -> date:
    """The day alone."""
    return proposed_day(plan, assessment).day


def at_the_latest(plan: Plan) -> bool:
    """Whether a danger was found, or the plan asks for a look as soon as at damaged skin.

    What is asked for within that time is asked for at the latest (design value).
    """
    urgent = plan.urgency is not Urgency.ROUTINE
    return urgent or plan.follow_up.in_days <= FOLLOW_SKIN.value


def moved_off(asked: date, closed: ClosedDays, *, after: date, latest: bool) -> ProposedDay:
    """``asked``, or the open day nearest to it on the side that ``latest`` allows."""
    why = closed.why(asked)
    if not why:
        return ProposedDay(asked)
    before = closed.last_open(asked) if latest else None
    if before and before > after:
        return ProposedDay(before, _words(asked, why, BEFORE))
    following = closed.next_open(asked)
    if following is None:  # closed for as far as is looked: said, and left to the nurse
        return ProposedDay(asked, _words(asked, why, "no open day is near it"))
    return ProposedDay(following, _words(asked, why, LATER if latest else AFTER))


def _words(asked: date, why: str, what: str) -> str:
    return f"On {asked:%A}, {formatting.day(asked)} the clinic is {why}; {what}."


def _as_once(asked: date, *, after: date) -> date:
    """How a day was found for plans that were signed before the day was stored with them."""
    closed = ClosedDays(settings.CLINIC_CLOSED_WEEKDAYS, {})
    before = closed.last_open(asked)
    return before if before and before > after else closed.next_open(asked) or asked
