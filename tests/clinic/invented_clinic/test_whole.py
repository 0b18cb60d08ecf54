"""The invented clinic: whole, plausible, dated up to today, loaded once."""

from datetime import date, datetime
from io import StringIO
from itertools import pairwise
from random import Random

import pytest
from django.contrib.auth.password_validation import validate_password
from django.core.management import CommandError, call_command
from django.db.models import Model
from django.test import override_settings
from django.utils import timezone

from clinic.accounts.models import Role, User
from clinic.follow_up.models import FollowUp, Move
from clinic.patients.models import Contacts, Patient, Sensitivity, Stoma, Telephone
from clinic.plans.models import Choice, ChosenCode, Decision, PlanSnapshot
from clinic.referrals.models import Referral
from clinic.tasks.models import Task
from clinic.visits.models import (
    Addendum,
    Assessment,
    Photo,
    SkinFinding,
    Visit,
    WearEpisode,
    WornBarrier,
)
from fixtures.invented_clinic.accounts import ACCOUNTS, STAFF
from fixtures.invented_clinic.courses import everyone
from fixtures.invented_clinic.days import Calendar, barriers, barriers_since, next_workday, workday
from fixtures.invented_clinic.load import Loaded
from fixtures.invented_clinic.story import PersonStory
from tests.clinic.invented_clinic.record import families, seen

pytestmark = pytest.mark.django_db

COUNTED: tuple[type[Model], ...] = (
    User,
    Patient,
    Stoma,
    Sensitivity,
    Visit,
    Assessment,
    SkinFinding,
    PlanSnapshot,
    Decision,
    FollowUp,
    Referral,
    Addendum,
    Move,
    ChosenCode,
    WornBarrier,
    Photo,
    Contacts,
    Telephone,
    Task,
)
STORIES = [story for people in everyone().values() for story in people]


def counts() -> dict[str, int]:
    return {model.__name__: model._default_manager.count() for model in COUNTED}


# --- the stories by themselves ----------------------------------------------------------------
def test_names_are_distinct_and_no_one_is_called_like_the_staff() -> None:
    for names in ([s.family for s in STORIES], [s.given for s in STORIES]):
        assert len(names) == len(set(names))
    staff = {name for member in STAFF for name in (member.first_name, member.last_name)}
    assert not staff & {name for s in STORIES for name in (s.family, s.given)}


def test_the_stories_are_the_same_every_time() -> None:
    assert everyone() == everyone()


@pytest.mark.parametrize("ahead", range(7))
def test_visits_lie_in_order_on_working_days_between_surgery_and_today(ahead: int) -> None:
    """Whatever day of the week the clinic is loaded on."""
    now = datetime(2025, 6, 2 + ahead, 8, 5, tzinfo=timezone.get_current_timezone())
    for story in STORIES:
        check_days(story, Calendar(now))


def check_days(story: PersonStory, calendar: Calendar) -> None:
    dice = Random(story.family)  # noqa: S311 - times of day, no secrets
    at = [calendar.visit_at(v, dice) for v in story.visits]
    assert all(earlier.date() < later.date() for earlier, later in pairwise(at))
    assert all(moment <= calendar.now for moment in at)
    assert all(m.weekday() < 5 for m, v in zip(at, story.visits, strict=True) if not v.draft)
    for visit, moment in zip(story.visits, at, strict=True):
        for stoma, chart in zip(story.stomas, visit.charts, strict=True):
            if chart is not None and stoma.made is not None:
                assert calendar.before(stoma.made) < moment.date()
            if chart is not None and stoma.closed is not None:
                assert moment.date() < calendar.before(stoma.closed)


@pytest.mark.parametrize(
    ("day", "worked"),
    [
        (date(2025, 6, 6), date(2025, 6, 6)),
        (date(2025, 6, 7), date(2025, 6, 6)),
        (date(2025, 6, 8), date(2025, 6, 6)),
        (date(2025, 6, 9), date(2025, 6, 9)),
    ],
)
def test_a_weekend_moves_back_to_friday(day: date, worked: date) -> None:
    assert workday(day) == worked


@pytest.mark.parametrize(("day", "moved"), [(6, 6), (7, 9), (8, 9), (9, 9)])
def test_no_one_is_asked_to_come_on_a_weekend(day: int, moved: int) -> None:
    assert next_workday(date(2025, 6, day)) == date(2025, 6, moved)


def test_wear_ends_at_the_visit_and_begins_after_the_last_one() -> None:
    rows = barriers("4 3L 2", date(2025, 6, 20), since=date(2025, 6, 14))
    assert [(row.on.day, row.off and row.off.day, row.reason) for row in rows] == [
        (15, 18, "leak"),
        (18, 20, "planned"),
    ]


def test_a_diary_may_have_gaps_and_barriers_without_an_end() -> None:
    rows = barriers("3 _4 ?2 3F", date(2025, 6, 20), since=None)
    assert [(row.on.day, row.off and row.off.day, row.reason) for row in rows] == [
        (8, 11, "planned"),
        (15, None, ""),
        (17, 20, "fell_off"),
    ]


@pytest.mark.parametrize(
    ("today", "worn"),
    [
        (2, []),
        (3, [(2, None, "")]),
        (5, [(2, None, "")]),
        (6, [(2, 5, "leak"), (5, None, "")]),
        (20, [(2, 5, "leak"), (5, 9, "planned")]),
    ],
)
def test_what_reaches_today_is_still_on(
    today: int, worn: list[tuple[int, int | None, str]]
) -> None:
    rows = barriers_since("3L 4", date(2025, 6, 2), date(2025, 6, today))
    assert [(row.on.day, row.off and row.off.day, row.reason) for row in rows] == worn


# --- staff --------------------------------------------------------------------------------------
def test_every_role_is_there_and_two_nurses(loaded: Loaded) -> None:
    roles = sorted(User.objects.values_list("role", flat=True))
    assert roles == sorted([*Role.values, Role.NURSE])


def test_the_demo_can_name_every_account(loaded: Loaded) -> None:
    for username, password, words in ACCOUNTS:
        user = User.objects.get(username=username)
        assert user.check_password(password)
        assert len(password) >= 15
        validate_password(password, user)
        assert words == Role(user.role).label


# --- the whole ----------------------------------------------------------------------------------
def test_the_clinic_is_of_a_size_to_try_things_in(loaded: Loaded) -> None:
    assert 58 <= Patient.objects.count() == loaded.people <= 75
    assert Visit.objects.signed().count() == loaded.signed >= 110
    assert Visit.objects.drafts().count() == loaded.drafts == 1
    assert {len(seen(f)) >= 2 for f in families("leak_low_hours")} == {True}


def test_every_signed_assessment_has_its_plan_and_decisions(loaded: Loaded) -> None:
    signed = Assessment.objects.filter(visit__state="signed")
    assert not signed.filter(plan__isnull=True).exists()
    assert not signed.filter(decisions__isnull=True).exists()
    assert not PlanSnapshot.objects.filter(assessment__visit__state="draft").exists()


def test_nurses_sometimes_decide_otherwise_and_say_why(loaded: Loaded) -> None:
    otherwise = Decision.objects.exclude(choice=Choice.ACCEPTED)
    assert otherwise.filter(choice=Choice.CHANGED).exclude(key="follow_up").exists()
    assert otherwise.filter(choice=Choice.DROPPED).exclude(key="follow_up").exists()
    assert all(decision.reason for decision in otherwise)


def test_nothing_but_due_dates_lies_in_the_future(loaded: Loaded) -> None:
    now, today = timezone.now(), timezone.localdate()
    assert not Visit.objects.filter(happened_at__gt=now).exists()
    assert not Visit.objects.filter(signed_at__gt=now).exists()
    assert not Addendum.objects.filter(at__gt=now).exists()
    assert not Referral.objects.filter(answered_at__gt=now).exists()
    assert not WearEpisode.objects.filter(off__gt=today).exists()
    assert not Stoma.objects.filter(surgery_date__gt=today).exists()
    assert not Stoma.objects.filter(closed_on__gt=today).exists()


def test_tasks_are_open_overdue_and_done(loaded: Loaded) -> None:
    today = timezone.localdate()
    tasks = list(Task.objects.all())
    assert any(task.is_open and task.day == today for task in tasks)
    assert any(task.is_open and task.day < today for task in tasks)
    assert any(not task.is_open for task in tasks)
    assert {task.for_whom is None for task in tasks} == {True, False}


def test_every_telephone_number_is_one_kept_for_fiction(loaded: Loaded) -> None:
    numbers = [one.number for one in Telephone.objects.all()]
    numbers += [one.carer_phone for one in Contacts.objects.all() if one.carer_phone]
    numbers += [one.doctor_phone for one in Contacts.objects.all() if one.doctor_phone]
    assert len(numbers) > 100
    assert all(number.startswith(("07700 900", "01632 960")) for number in numbers)


def test_people_are_due_today_overdue_and_later(loaded: Loaded) -> None:
    today = timezone.localdate()
    due = [row.due for row in FollowUp.objects.open()]
    assert due.count(next_workday(today)) >= 4  # no one is due on a closed day
    assert len([day for day in due if day < today]) >= 4
    assert len([day for day in due if day > today]) >= 8


def test_a_second_run_adds_nothing_and_says_so(loaded: Loaded) -> None:
    before, out = counts(), StringIO()
    call_command("load_invented_clinic", stdout=out)
    assert counts() == before
    assert "nothing was added" in out.getvalue()


@override_settings(PRODUCTION=True)
def test_production_is_refused() -> None:
    with pytest.raises(CommandError):
        call_command("load_invented_clinic")


def test_some_things_are_honestly_not_recorded(loaded: Loaded) -> None:
    assert Patient.objects.filter(hand_dexterity="").exists()
    assert Patient.objects.filter(anticoagulant__isnull=True).exists()
    assert Stoma.objects.filter(surgery_date_unknown=True).exists()
    assert Assessment.objects.filter(not_looked_at__len__gt=0).exists()
