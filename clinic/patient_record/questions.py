"""Danger and open questions of one patient: what somebody has to act on, the most urgent first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from django.urls import reverse
from django.utils import timezone

from clinic import formatting
from clinic.patients.models import Patient
from clinic.plans.models import Choice
from clinic.plans.presenters.latest_plan import LatestPlan
from clinic.referrals import queries
from clinic.referrals.models import Alarm, Referral, Urgency
from clinic.referrals.models.referral import TODAY, URGENCY_ORDER
from clinic.referrals.presenters.waiting import rows_of

PRESSING = (Urgency.EMERGENCY, *TODAY)


@dataclass(frozen=True)
class Question:
    """``state``: what became of it. ``open``: no one has answered yet, or no one was asked.
    ``asked``: a referral that waits for its answer."""

    urgency: Urgency
    text: str
    state: str
    url: str
    link: str
    open: bool = True
    asked: bool = False

    @property
    def urgency_words(self) -> str:
        """How soon it was wanted, and that it is answered."""
        return str(self.urgency.label) if self.open else f"{self.urgency.label}: answered"

    @property
    def pressing(self) -> bool:
        """Open, and for now or today."""
        return self.open and self.urgency in PRESSING


def questions_of(patient: Patient, latest: Iterable[LatestPlan]) -> list[Question]:
    """Alarms of drafts, referrals without an answer, and the red flags and answers of the last
    signed visit of each stoma. A flag that waits as a referral is named once. Two queries."""
    waiting = list(queries.about_patient(queries.waiting(), [patient.pk]))
    known = {referral.pk for referral in waiting}
    found = [
        *(_alarm(alarm) for alarm in _alarms(patient)),
        *_asked(waiting),
        *(one for plan in latest for one in _of_last_visit(plan, known)),
    ]
    return sorted(found, key=lambda one: (not one.open, URGENCY_ORDER[one.urgency]))


def _alarms(patient: Patient) -> Iterable[Alarm]:
    alarms = queries.alarms().filter(assessment__visit__patient=patient)
    return alarms.select_related("assessment__visit__clinician")


def _alarm(alarm: Alarm) -> Question:
    visit = alarm.assessment.visit
    return Question(
        Urgency(alarm.urgency),
        alarm.headline,
        f"Found {formatting.moment(alarm.since)} by {visit.clinician.display_name}, in a visit "
        "that is not signed. Telephone a colleague, then sign it.",
        reverse("charting:visit", args=[visit.uuid]),
        "Open the visit",
    )


def _asked(waiting: list[Referral]) -> Iterator[Question]:
    for row in rows_of(waiting, timezone.now()):
        one = row.referral
        late = f", {row.late}" if row.late else ""
        yield Question(
            Urgency(one.urgency),
            row.first_line,
            f"Asked {formatting.day(one.made_at)}, to {one.to}: no answer for {row.waits}{late}.",
            reverse("referrals:referral", args=[one.uuid]),
            "Open the referral",
            asked=True,
        )


def _of_last_visit(plan: LatestPlan, waiting: set[int]) -> Iterator[Question]:
    """Red flags with what became of each, then other questions of that visit with their answer."""
    referrals = list(plan.assessment.referrals.all())
    by_flag = {one.flag_key: one for one in referrals if one.flag_key}
    for flag in plan.flags:
        asked = by_flag.get(flag.key)
        if asked is None:
            yield _not_asked(plan, flag.urgency, flag.text, flag.choice, flag.reason)
        elif asked.pk not in waiting:
            yield _answered(asked)
    yield from (_answered(one) for one in referrals if not one.flag_key and one.pk not in waiting)


def _not_asked(
    plan: LatestPlan, urgency: str, text: str, choice: Choice | None, reason: str
) -> Question:
    visit = plan.assessment.visit
    why = f"Not referred: {reason}" if choice == Choice.DROPPED and reason else "Not referred."
    return Question(
        Urgency(urgency),
        text,
        f"Red flag of {formatting.day(visit.happened_at)}. {why}",
        reverse("charting:visit", args=[visit.uuid]),
        "Open the visit",
    )


def _answered(one: Referral) -> Question:
    return Question(
        Urgency(one.urgency),
        one.asks,
        f"Answer of {one.who_answered}, {formatting.day(one.answered_at)}: {one.answer}",
        reverse("referrals:referral", args=[one.uuid]),
        "Open the referral",
        open=False,
    )
