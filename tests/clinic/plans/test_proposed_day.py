"""A next visit never falls on a closed day without a word: moved on, or back where it is asked for
at the latest; a signed plan keeps its day."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from django.http import QueryDict
from django.utils import timezone

from clinic.clinic_details.closed_days import ClosedDays
from clinic.follow_up.models import FollowUp
from clinic.plans.actions.decide import save_decisions
from clinic.plans.actions.sign import NotReadyError
from clinic.plans.decision_forms import FOLLOW_UP, Decisions, decidables
from clinic.plans.draft_plan import draft_plan
from clinic.plans.models import PlanSnapshot
from clinic.plans.plan_with_decisions import decided_plan
from clinic.plans.proposed_day import AFTER, BEFORE, LATER, at_the_latest, moved_off, proposed_day
from clinic.visits.models import Assessment
from planning import Plan
from planning.results.plan import Urgency
from tests.clinic.plans.signed_visits import accept, reread, sign
from tests.factories.clinic_details import HolidayFactory
from tests.factories.visits import AssessmentFactory

FRIDAY, SATURDAY, SUNDAY, MONDAY = (date(2025, 5, day) for day in (9, 10, 11, 12))
TUESDAY_BEFORE = date(2025, 5, 6)
WEEKENDS = ClosedDays(frozenset({5, 6}), {MONDAY: "Harvest Day"})


@pytest.mark.parametrize(
    ("asked", "after", "latest", "day", "said"),
    [
        (FRIDAY, TUESDAY_BEFORE, False, FRIDAY, ""),
        (FRIDAY, TUESDAY_BEFORE, True, FRIDAY, ""),
        (SATURDAY, TUESDAY_BEFORE, False, date(2025, 5, 13), AFTER),
        (MONDAY, TUESDAY_BEFORE, False, date(2025, 5, 13), AFTER),
        (MONDAY, TUESDAY_BEFORE, True, FRIDAY, BEFORE),
        (SUNDAY, TUESDAY_BEFORE, True, FRIDAY, BEFORE),
        # Seen on that Friday: there is no open day between, and it is said to be late.
        (SATURDAY, FRIDAY, True, date(2025, 5, 13), LATER),
    ],
)
def test_the_day_is_moved_and_says_so(
    asked: date, after: date, latest: bool, day: date, said: str
) -> None:
    found = moved_off(asked, WEEKENDS, after=after, latest=latest)
    assert found.day == day
    assert found.moved.endswith(f"{said}." if said else "")
    assert bool(found.moved) is (asked != day)


def test_the_words_name_the_day_and_why_it_is_closed() -> None:
    found = moved_off(MONDAY, WEEKENDS, after=TUESDAY_BEFORE, latest=False)
    assert found.moved == (
        "On Monday, 12 May 2025 the clinic is closed: Harvest Day; moved to the next open day."
    )
    assert "closed on Saturdays" in moved_off(SATURDAY, WEEKENDS, after=FRIDAY, latest=False).moved


def test_closed_as_far_as_is_looked_leaves_the_day_and_says_so() -> None:
    every = {MONDAY + timedelta(days=n): "Works" for n in range(70)}
    found = moved_off(MONDAY, ClosedDays(frozenset(), every), after=FRIDAY, latest=False)
    assert found.day == MONDAY
    assert "no open day is near it" in found.moved


@pytest.fixture
def leaking(db: None) -> Assessment:
    return AssessmentFactory(leaking=True)


def plan_of(assessment: Assessment) -> Plan:
    plan = draft_plan(reread(assessment)).plan
    assert plan is not None
    return plan


def asked_day(assessment: Assessment) -> date:
    visit_day = timezone.localdate(assessment.visit.happened_at)
    return visit_day + timedelta(days=plan_of(assessment).follow_up.in_days)


def with_follow_up(plan: Plan, days: int, urgency: Urgency) -> Plan:
    return replace(plan, follow_up=replace(plan.follow_up, in_days=days), urgency=urgency)


@pytest.mark.parametrize(
    ("days", "urgency", "latest"),
    [
        (7, Urgency.ROUTINE, True),
        (8, Urgency.ROUTINE, False),
        (14, Urgency.ROUTINE, False),
        (14, Urgency.TWO_WEEKS, True),
        (1, Urgency.EMERGENCY, True),
    ],
)
def test_a_danger_or_a_week_is_at_the_latest(
    leaking: Assessment, days: int, urgency: Urgency, latest: bool
) -> None:
    assert at_the_latest(with_follow_up(plan_of(leaking), days, urgency)) is latest


@pytest.mark.parametrize(("days", "moved_to"), [(6, -1), (14, 1)])
def test_a_holiday_moves_what_the_plan_proposes(
    leaking: Assessment, days: int, moved_to: int, settings: Any
) -> None:
    settings.CLINIC_CLOSED_WEEKDAYS = frozenset()
    plan = with_follow_up(plan_of(leaking), days, Urgency.ROUTINE)
    asked = timezone.localdate(leaking.visit.happened_at) + timedelta(days=days)
    HolidayFactory(day=asked, name="Harvest Day")
    assert proposed_day(plan, leaking).day == asked + timedelta(days=moved_to)
    text = next(item.text for item in decidables(plan, leaking) if item.key == FOLLOW_UP)
    assert "Harvest Day; moved to" in text


def test_signed_the_next_visit_says_why_then_and_keeps_its_day(leaking: Assessment) -> None:
    asked = asked_day(leaking)
    HolidayFactory(day=asked, name="Harvest Day")
    accept(leaking)
    sign(leaking)
    row, snapshot = FollowUp.objects.get(), PlanSnapshot.objects.get()
    assert row.due == snapshot.planned_day != asked
    assert row.reason.endswith(snapshot.planned_day_moved)
    assert "Harvest Day" in row.reason
    # Closed afterwards, that day stays signed, and so does what was decided about it.
    HolidayFactory(day=row.due, name="Flood")
    decided = decided_plan(reread(leaking))
    assert decided is not None
    assert not decided.undecided
    assert decided.decided_day == row.due


def test_a_plan_signed_before_the_day_was_stored_keeps_its_day(leaking: Assessment) -> None:
    accept(leaking)
    plan = plan_of(leaking)
    day = asked_day(leaking)
    while day.weekday() in {5, 6}:
        day -= timedelta(days=1)
    leaking.plan = PlanSnapshot(assessment=leaking)
    HolidayFactory(day=day)
    assert proposed_day(plan, leaking).day == day


def test_a_day_closed_before_signing_asks_again(leaking: Assessment) -> None:
    accept(leaking)
    plan = plan_of(leaking)
    HolidayFactory(day=proposed_day(plan, leaking).day, name="Harvest Day")
    with pytest.raises(NotReadyError) as refused:
        sign(leaking)
    assert "Harvest Day" in refused.value.problems[0].message


def own_day(leaking: Assessment, day: date) -> Decisions:
    plan = plan_of(leaking)
    item = next(one for one in decidables(plan, leaking) if one.key == FOLLOW_UP)
    data = QueryDict(mutable=True)
    prefix = f"decision-{FOLLOW_UP}"
    data[f"{prefix}-choice"], data[f"{prefix}-about"] = "changed", item.about
    data[f"{prefix}-changed_to"], data[f"{prefix}-reason"] = day.isoformat(), "Transport"
    save_decisions(plan=plan, assessment=reread(leaking), data=data)
    return Decisions(plan, reread(leaking), data=data)


def test_the_nurses_own_day_may_not_be_a_closed_one(leaking: Assessment) -> None:
    day = date(2025, 6, 3)
    HolidayFactory(day=day, name="Harvest Day")
    form = own_day(leaking, day).by_key[FOLLOW_UP]
    words = "The clinic is closed that day: Harvest Day. Choose another day."
    assert form.errors == {"changed_to": [words]}
    assert own_day(leaking, date(2025, 6, 4)).by_key[FOLLOW_UP].errors == {}


def test_the_nurses_own_day_closed_since_keeps_the_visit_open(leaking: Assessment) -> None:
    own_day(leaking, date(2025, 6, 4))
    accept(leaking)
    HolidayFactory(day=date(2025, 6, 4), name="Harvest Day")
    with pytest.raises(NotReadyError) as refused:
        sign(leaking)
    assert refused.value.problems[0].message.startswith("Next visit on Wednesday, 4 Jun 2025:")
