"""What should be acted on today, by reason and by name: four lists, the most dangerous first."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final

from django.db.models import QuerySet
from django.urls import reverse
from django.utils import timezone

from clinic import capped_count, formatting
from clinic.follow_up import queries as follow_up_queries
from clinic.follow_up.models import FollowUp
from clinic.follow_up.presenters.due import due_rows
from clinic.patients.models import Patient
from clinic.referrals import queries as referrals_queries
from clinic.referrals.models import Alarm, Referral, Urgency
from clinic.referrals.presenters.waiting import rows_of
from clinic.tasks import queries as tasks_queries
from clinic.tasks.models import Task

#: Of each list on the first screen; the rest is a press away.
AT_FIRST: Final = 5


@dataclass(frozen=True)
class Person:
    """One line of a list: who, why in words, how late (""), and where it is acted on."""

    patient: Patient
    words: str
    late: str
    address: str


@dataclass(frozen=True)
class Reason:
    """A list: the rows asked for, and each of them in words."""

    title: str
    help: str
    rows: Callable[[datetime], QuerySet[Any]]
    said: Callable[[list[Any], datetime], Iterable[Person]]


@dataclass(frozen=True)
class Shown:
    """A list's beginning. ``beyond``: how many more there are."""

    key: str
    title: str
    help: str
    people: list[Person]
    count: capped_count.Count
    more: bool


def act_today(now: datetime) -> list[Shown]:
    """Two queries a list, however long it is; empty ones are left out."""
    shown = []
    for key, reason in REASONS.items():
        rows = reason.rows(now)
        found = list(rows[: AT_FIRST + 1])
        if found:
            people = list(reason.said(found[:AT_FIRST], now))
            many = capped_count.counted(rows.order_by())
            more = len(found) > AT_FIRST
            shown.append(Shown(key, reason.title, reason.help, people, many, more))
    return shown


def _alarms(rows: list[Alarm], now: datetime) -> Iterable[Person]:
    for one in rows:
        visit = one.assessment.visit
        words = f"{one.headline} Charted by {visit.clinician.display_name}."
        late = f"since {formatting.moment(one.since)}"
        yield Person(visit.patient, words, late, reverse("charting:visit", args=[visit.uuid]))


def _referrals(rows: list[Referral], now: datetime) -> Iterable[Person]:
    for row in rows_of(rows, now):
        one = row.referral
        words = f"{Urgency(one.urgency).label}, to {one.to}: {row.first_line}"
        address = reverse("referrals:referral", args=[one.uuid])
        yield Person(one.assessment.visit.patient, words, row.late, address)


def _visits(rows: list[FollowUp], now: datetime) -> Iterable[Person]:
    for row in due_rows(rows, timezone.localdate(now), set(), clinical=True):
        one = row.follow_up
        said = [row.urgency_words, "Referral without an answer" * row.waits, one.reason]
        words = ". ".join(part for part in said if part)
        address = reverse("follow_up:reschedule", args=[one.set_by.uuid])
        yield Person(one.stoma.patient, words, row.late, address)


def _tasks(rows: list[Task], now: datetime) -> Iterable[Person]:
    today = timezone.localdate(now)
    for one in rows:
        days = (today - one.day).days
        whose = one.for_whom.display_name if one.for_whom else "everyone"
        what = ": ".join(part for part in (one.get_kind_display(), one.words) if part)
        late = f"{days} day{'s' * (days != 1)} overdue"
        address = reverse("patients:record", args=[one.patient.uuid])
        yield Person(one.patient, f"{what}. For {whose}.", late, address)


REASONS: Final[dict[str, Reason]] = {
    "alarms": Reason(
        "Danger in a visit that is not signed",
        "No referral was sent yet: telephone a colleague, then have the visit signed.",
        lambda now: referrals_queries.alarms().select_related(
            "assessment__visit__patient", "assessment__visit__clinician"
        ),
        _alarms,
    ),
    "referrals": Reason(
        "Referral without an answer in time",
        "Later than its urgency allows. What is routine is never late.",
        lambda now: referrals_queries.for_list(referrals_queries.late(timezone.localdate(now))),
        _referrals,
    ),
    "visits": Reason(
        "Next visit overdue",
        "Its day has passed without a signed visit; the most urgent plan first.",
        lambda now: follow_up_queries.by_danger(
            follow_up_queries.due(clinical=True).filter(due__lt=timezone.localdate(now))
        ),
        _visits,
    ),
    "tasks": Reason(
        "Task not done",
        "Its day has passed, for one or for all.",
        lambda now: tasks_queries.overdue(timezone.localdate(now)),
        _tasks,
    ),
}
