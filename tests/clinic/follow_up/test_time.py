"""The time of a next visit: optional, set at signing or when moved, shown where the day is."""

from datetime import date, time, timedelta

import pytest
from django.db import DatabaseError, transaction
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import Settings

from clinic.accounts.models import Role
from clinic.documents.care_sheet.build import next_visit
from clinic.documents.letter.build import plan_lines
from clinic.documents.next_visit_card import card
from clinic.follow_up.models import FollowUp, Move
from clinic.plans.actions.decide import accept_all
from clinic.plans.decision_forms import Decisions
from clinic.plans.draft_plan import draft_plan
from clinic.plans.models import Decision
from clinic.plans.plan_with_decisions import DecidedPlan, decided_plan
from clinic.visits.models import Assessment
from tests.clinic.clinic_day.test_clinic_day import TODAY, day_page, due, moving
from tests.clinic.plans.signed_visits import accept, reread, sign
from tests.clinic.plans.test_signing import decide
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _always_open(settings: Settings) -> None:
    settings.CLINIC_CLOSED_WEEKDAYS = frozenset()


@pytest.fixture
def draft() -> Assessment:
    made: Assessment = AssessmentFactory(well_fitting=True)
    return made


def signed_with(draft: Assessment, **given: str) -> FollowUp:
    decide(draft, "follow_up", **given)
    accept(draft)
    sign(draft)
    return FollowUp.objects.get()


def planned(draft: Assessment) -> DecidedPlan:
    made = decided_plan(reread(draft))
    assert made is not None
    return made


@pytest.mark.parametrize(
    "given",
    [
        {"choice": "accepted"},
        {"choice": "changed", "changed_to": "2025-06-30", "reason": "Holiday"},
    ],
)
def test_a_time_is_set_with_the_day_and_is_on_the_papers(
    draft: Assessment, given: dict[str, str]
) -> None:
    one = signed_with(draft, **given, at="14:30")
    assert one.at == time(14, 30)
    FollowUp.objects.update(due=TODAY() + timedelta(days=3))
    decided = planned(draft)
    assert next_visit(decided).time == "14:30"
    assert card((decided,), paper="a4", large=False).time == "14:30"
    assert plan_lines(decided)[-1].endswith(", 14:30")


def test_no_time_is_no_time(draft: Assessment) -> None:
    one = signed_with(draft, choice="accepted")
    assert one.at is None
    FollowUp.objects.update(due=TODAY() + timedelta(days=3))
    decided = planned(draft)
    assert next_visit(decided).time == ""
    assert card((decided,), paper="a4", large=False).time == ""
    assert ":" not in plan_lines(decided)[-1]


def test_what_is_no_time_is_said_and_kept_as_typed(draft: Assessment) -> None:
    decisions = decide(draft, "follow_up", choice="accepted", at="half two")
    assert not Decision.objects.exists()
    assert decisions.by_key["follow_up"].errors["at"] == [
        "This is not a time. Write it like 09:30 or 14:30."
    ]
    assert decisions.by_key["follow_up"]["at"].value() == "half two"


def test_a_time_for_the_proposed_day_accepts_that_day(draft: Assessment) -> None:
    decisions = decide(draft, "follow_up", at="14:30")
    assert not decisions.errors()
    stored = Decision.objects.get(key="follow_up")
    assert (stored.choice, stored.at) == ("accepted", time(14, 30))


def test_a_dropped_visit_has_no_time_and_no_other_decision_has_one(draft: Assessment) -> None:
    decide(draft, "follow_up", choice="dropped", reason="Discharged", at="14:30")
    assert Decision.objects.get().at is None
    with pytest.raises(DatabaseError), transaction.atomic():
        Decision.objects.update(at=time(9), key="ring")


def test_accepting_the_rest_asserts_no_time(draft: Assessment) -> None:
    decide(draft, "follow_up", choice="accepted", at="14:30")
    Decision.objects.update(text="Other words", about="")
    stored = reread(draft)
    plan = draft_plan(stored).plan
    assert plan is not None
    assert Decisions(plan, stored).by_key["follow_up"]["at"].value() == time(14, 30)
    accept_all(plan, stored)
    assert Decision.objects.get(key="follow_up").at is None


def test_the_time_is_moved_with_the_day_or_alone(client: Client) -> None:
    one = due(TODAY() + timedelta(days=5), well_fitting=True)
    same = one.due.isoformat()
    said = moving(client, one, Role.DESK, day=same, at="9:30")
    assert "Next visit moved to" in said
    assert ", 09:30." in said
    one.refresh_from_db()
    assert (one.due.isoformat(), one.at) == (same, time(9, 30))
    said = moving(client, one, day=same, at="09:30", was_at="09:30")
    assert "That is the day already set" in said
    assert "That is the day already set" in moving(client, one, day=same, was_at="09:30")
    sooner = (one.due - timedelta(days=1)).isoformat()
    moving(client, one, day=sooner, was_at="09:30")
    one.refresh_from_db()
    assert one.at is None, "a time is not carried to another day"
    assert [(move.was_at, move.became_at) for move in Move.objects.all()] == [
        (None, time(9, 30)),
        (time(9, 30), None),
    ]


def test_a_time_set_by_somebody_else_in_the_meantime_is_not_overwritten(client: Client) -> None:
    one = due(TODAY() + timedelta(days=5), well_fitting=True)
    FollowUp.objects.update(at=time(11))
    said = moving(client, one, day=one.due.isoformat(), at="09:30")
    assert "Someone else has moved this visit to" in said
    assert ", 11:00." in said
    assert not Move.objects.exists()


def test_what_is_typed_for_a_time_comes_back(client: Client) -> None:
    one = due(TODAY() + timedelta(days=5), well_fitting=True)
    said = moving(client, one, day=one.due.isoformat(), at="25:00")
    assert "This is not a time. Write it like 09:30 or 14:30." in said
    assert 'value="25:00"' in said


def test_a_move_that_moves_nothing_is_refused_by_the_database(client: Client) -> None:
    one = due(TODAY() + timedelta(days=5), well_fitting=True)
    row = {"follow_up": one, "was": one.due, "became": one.due, "reason": "other"}
    with pytest.raises(DatabaseError), transaction.atomic():
        Move.objects.create(**row, by=UserFactory(), at=timezone.now())


def test_the_day_is_in_order_of_time(client: Client) -> None:
    none, late, early = (due(TODAY(), well_fitting=True) for _ in range(3))
    for one, at in ((late, time(15)), (early, time(9, 15))):
        FollowUp.objects.filter(pk=one.pk).update(at=at)
    for role in (Role.NURSE, Role.DESK):
        page = day_page(client, role)
        places = [
            page.index(reverse("patients:record", args=[one.stoma.patient.uuid]))
            for one in (early, late, none)
        ]
        assert places == sorted(places)
        assert "<b>09:15</b>" in page


def test_when_it_is_said_before_the_reason_to_move_it(client: Client) -> None:
    one = due(date(2031, 4, 7), well_fitting=True)
    FollowUp.objects.update(at=time(9, 15))
    client.force_login(UserFactory(role=Role.DESK))
    page = client.get(reverse("follow_up:reschedule", args=[one.set_by.uuid])).content.decode()
    assert "7 Apr 2031, 09:15" in page
    assert "Now at 09:15. Give it again if it is to stay." in page
