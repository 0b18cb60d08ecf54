"""Under 16: the age reaches the planner, and no page shows a figure for adults."""

from __future__ import annotations

import re
from datetime import date, timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role
from clinic.plans.children import UNSTOPPED
from clinic.plans.course import course_of, report_of
from clinic.plans.draft_plan import draft_plan
from clinic.plans.models import PlanSnapshot
from clinic.plans.plan_with_decisions import decided_plan
from clinic.visits.choices import ChildSign
from clinic.visits.models import Assessment
from planning.children.plan import NO_RULES
from planning.inputs.age import AgeGroup
from planning.results.snapshot import plan_to_dict
from planning.withheld_from_children import MADE_BEFORE
from tests.clinic.plans.signed_visits import accept, reread, sign, signed
from tests.factories.accounts import UserFactory
from tests.factories.visits import HAPPENED_AT, AssessmentFactory, VisitFactory

pytestmark = pytest.mark.django_db

#: On the day of ``HAPPENED_AT`` this one is 15, a day older would be 16.
FIFTEEN, SIXTEEN = date(2009, 5, 7), date(2009, 5, 6)
#: Limits, zones and amounts for adults, as pages word them.
ADULT = re.compile(
    r"1[ ,.]?000|1[ ,.]?500|2[ ,.]?000|litre|\b(?:2|4|6|24|72) hours|10 min|day 30|56 days|5\.01|"
    r"tends to leak|on target|call the team|(?-i:high output)|Opening to cut|Gap each side",
    re.IGNORECASE,
)


def a_child(born: date = FIFTEEN, **traits: Any) -> Assessment:
    made: Assessment = AssessmentFactory(
        stoma__patient__date_of_birth=born, **(traits or {"leaking": True})
    )
    return reread(made)


def signed_child(**traits: Any) -> Assessment:
    made = a_child(**traits)
    accept(made)
    sign(made)
    return reread(made)


def page(name: str, *args: Any) -> str:
    client = Client()
    client.force_login(UserFactory.create(role=Role.NURSE))
    answer = client.get(reverse(name, args=args))
    assert answer.status_code == 200
    return text_of(answer.content.decode())


def text_of(html: str) -> str:
    """What is read on a page: no tags, no ids; list values keep apart."""
    body = re.sub(r"<(script|style|template)\b.*?</\1>", "", html, flags=re.DOTALL)
    return " ".join(re.sub(r"<[^>]+>", " ", body).split())


def made_by_adult_rules(monkeypatch: pytest.MonkeyPatch) -> Assessment:
    """Signed as an adult's; then the date of birth is corrected."""
    made = signed(leaking=True)
    patient = made.visit.patient
    patient.date_of_birth = FIFTEEN
    patient.save()
    return reread(made)


# --- age ------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("born", "years", "group"),
    [
        (FIFTEEN, 15, AgeGroup.CHILD),
        (SIXTEEN, 16, AgeGroup.ADULT),
        (date(2024, 1, 2), 1, AgeGroup.CHILD),
    ],
)
def test_the_age_on_the_day_of_the_visit_reaches_the_planner(
    born: date, years: int, group: AgeGroup
) -> None:
    live = draft_plan(a_child(born))
    assert live.findings.person.age_years == years
    assert live.plan is not None
    assert live.plan.made_for is group
    assert bool(live.plan.supplies) is (group is AgeGroup.ADULT)


# --- pages ----------------------------------------------------------------------------------
def test_the_visit_page_says_there_are_no_rules_and_shows_no_figure_for_adults() -> None:
    made = a_child(leaking=True)
    words = page("charting:chart", made.uuid)
    assert words.index(NO_RULES) < words.index("Supports, never replaces")
    assert UNSTOPPED in words
    assert "Weight and its day are not on record" in words
    # The form asks for a child's own sign, which has a number of hours in it.
    assert not ADULT.findall(words.replace(ChildSign.NO_WET_NAPPY_6_HOURS.label, "", 1))
    assert ADULT.search(page("charting:chart", AssessmentFactory(leaking=True).uuid))


def test_the_page_of_a_signed_visit_and_the_record_show_none() -> None:
    made = signed_child(leaking=True)
    visit = page("charting:visit", made.visit.uuid)
    assert NO_RULES in visit
    record = page("patients:record", made.visit.patient.uuid)
    assert NO_RULES in record
    for words in (visit, record):
        assert not ADULT.findall(words)


def test_the_trend_draws_no_zone_and_no_limit() -> None:
    made = signed_child(leaking=True, output__volume_ml_24h=620, measurement__protrusion_mm=3)
    words = page("trends:stoma", made.stoma.uuid)
    assert "not compared with limits for adults" in words
    assert not ADULT.findall(words)
    grown = signed(leaking=True, output__volume_ml_24h=1800, measurement__protrusion_mm=3)
    assert ADULT.search(page("trends:stoma", grown.stoma.uuid))


def seen_twice(born: date) -> Assessment:
    """Lower and with more output the second time."""
    first = a_child(born, leaking=True, measurement__protrusion_mm=22, output__volume_ml_24h=1100)
    accept(first)
    sign(first)
    later = VisitFactory.create(
        patient=first.visit.patient, happened_at=HAPPENED_AT + timedelta(days=20)
    )
    second = AssessmentFactory(
        stoma=first.stoma,
        visit=later,
        leaking=True,
        measurement__protrusion_mm=3,
        output__volume_ml_24h=1900,
    )
    accept(second)
    sign(second)
    return reread(second)


def test_flags_over_time_that_rest_on_limits_for_adults_are_silent() -> None:
    """The course of a child is held against itself alone."""
    born = date(2018, 1, 1)
    child, grown = (
        {flag.key for flag in report_of(seen_twice(day).stoma).flags}
        for day in (born, date(1980, 1, 1))
    )
    assert {"high_output", "retraction"} <= grown
    assert not {"high_output", "retraction"} & child


def test_the_age_of_an_old_visit_comes_from_the_date_of_birth() -> None:
    """It may not have been stored with the findings."""
    made = signed_child(leaking=True)
    stored = made.plan.findings
    assert stored["person"]["age_years"] == 15
    assert course_of(made.stoma).young


# --- signed by the rules for adults ---------------------------------------------------------
def test_a_plan_signed_by_the_rules_for_adults_is_held_back(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    made = made_by_adult_rules(monkeypatch)
    decided = decided_plan(made)
    assert decided is not None
    assert not decided.for_adult
    assert not decided.plan.supplies
    assert not decided.plan.steps
    assert decided.undecided == ()
    for words in (
        page("charting:visit", made.visit.uuid),
        page("patients:record", made.visit.patient.uuid),
    ):
        assert MADE_BEFORE in words
        assert not ADULT.findall(words)


def test_red_flags_of_such_a_plan_stay_as_decided(monkeypatch: pytest.MonkeyPatch) -> None:
    made = signed(leaking=True, output__volume_ml_24h=2100, measurement__bleeding="from_lumen")
    before = PlanSnapshot.objects.get(assessment=made).plan
    made.visit.patient.date_of_birth = FIFTEEN
    made.visit.patient.save()
    decided = decided_plan(reread(made))
    assert decided is not None
    assert {f.key for f in decided.plan.red_flags} == {f["key"] for f in before["red_flags"]}
    assert decided.undecided == ()
    said = " ".join(
        f"{flag.text} {flag.do} {flag.patient_text} {flag.because[0].text}"
        for flag in decided.plan.red_flags
    )
    assert not re.search(r"\d", said)
    assert PlanSnapshot.objects.get(assessment=made).plan == before
    assert plan_to_dict(decided.plan)["urgency"] == before["urgency"]
