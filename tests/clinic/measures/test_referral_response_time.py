"""Overdue follow-up and the wait for an answer."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.utils import timezone

from clinic.accounts.models import User
from clinic.follow_up.models import FollowUp
from clinic.measures.measure_types import Line
from clinic.measures.overdue import overdue
from clinic.measures.period import Period
from clinic.measures.referral_response_time import answers
from clinic.referrals.models import Referral
from clinic.visits.models import Assessment
from tests.clinic.measures.clinic_builders import START, visited
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.django_db

TODAY = date(2026, 6, 1)
NOW = timezone.now()
PERIOD = Period((NOW - timedelta(90)).date(), NOW.date())


def due(late: int, number: int = 1) -> list[FollowUp]:
    return [
        FollowUp.objects.create(
            stoma=(made := visited()).stoma,
            set_by=made,
            due=TODAY - timedelta(late),
            reason="review",
        )
        for _ in range(number)
    ]


def late() -> list[str]:
    return [line.counts[0] for line in overdue(TODAY).lines]


def test_by_how_long() -> None:
    due(1, 3)
    due(7, 3)
    due(8, 3)
    due(28, 3)
    due(29, 5)
    due(0, 9)
    due(-1, 9)
    assert late() == ["6", "6", "5", "17"]


def test_done_and_closed_are_not_overdue() -> None:
    done, closed, *_ = due(3, 7)
    FollowUp.objects.filter(pk=done.pk).update(done_by=visited(done.stoma, START).visit)
    closed.stoma.closed_on = TODAY
    closed.stoma.save()
    assert late() == ["5", "0", "0", "5"]


def test_a_small_group_is_not_to_be_had_by_subtraction() -> None:
    due(3, 20)
    due(10, 2)
    assert late() == ["not shown", "fewer than 5", "0", "22"]


@pytest.fixture
def asker() -> User:
    made: User = UserFactory()
    return made


def asked(
    asker: User, about: Assessment, after: float | None, ago: float = 100, urgency: str = "days"
) -> None:
    """A referral made ``ago`` hours before now and answered ``after`` hours later, or not."""
    made_at = NOW - timedelta(hours=ago)
    answer = {}
    if after is not None:
        answered_at = made_at + timedelta(hours=after)
        answer = {"answer": "Seen.", "answered_at": answered_at, "answered_by": asker}
    Referral.objects.create(
        assessment=about,
        to="surgeon",
        urgency=urgency,
        question="Please look.",
        made_at=made_at,
        made_by=asker,
        **answer,
    )


def waited(urgency: str = "Within 3 days") -> Line:
    return {line.about: line for line in answers(PERIOD, NOW).lines}[urgency]


def test_median_with_the_unanswered_waiting_on(asker: User) -> None:
    """Answered after 2, 4, 6, 8 and 10 hours, three unanswered for 100: half by the 8th hour."""
    about = visited()
    for hours in (2, 4, 6, 8, 10, None, None, None, None, None):
        asked(asker, about, hours)
    assert waited().counts == ("10", "5", "5")
    assert waited().figures[0].value == "10"


def test_an_hour_begun_counts_whole(asker: User) -> None:
    about = visited()
    for _ in range(5):
        asked(asker, about, 0.25)
    assert waited().figures[0].value == "1"


def test_most_without_an_answer(asker: User) -> None:
    about = visited()
    for _ in range(6):
        asked(asker, about, None)
    assert waited().counts == ("6", "0", "6")
    assert waited().figures[0].words == "not reached"


def test_few_answers_are_hidden(asker: User) -> None:
    about = visited()
    for hours in (1, 2, 3, None, None, None, None, None, None):
        asked(asker, about, hours)
    assert waited().counts == ("9", "fewer than 5", "not shown")
    assert waited().figures[0].words == "not shown"


def test_each_urgency_by_itself_and_in_these_dates_only(asker: User) -> None:
    about = visited()
    for _ in range(5):
        asked(asker, about, 1, urgency="emergency")
        asked(asker, about, 1, ago=24 * 200, urgency="routine")
    assert waited("Emergency, now").counts == ("5", "5", "0")
    assert waited("Routine").counts == ("0", "0", "0")
