"""Who is behind a number: named on the screen, on the audit trail, never in a file."""

from __future__ import annotations

import csv
from collections.abc import Callable
from datetime import date, timedelta
from io import StringIO

import pytest
from django.db import connection
from django.http import QueryDict
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role
from clinic.accounts.permissions import ROLE_RIGHTS, Right
from clinic.audit.models import AccessLog
from clinic.clinic_details.actions import change_details
from clinic.follow_up.models import FollowUp
from clinic.measures.act_today import AT_FIRST
from clinic.patients.models import Patient
from clinic.referrals.models import Alarm, Referral
from clinic.referrals.queries import late
from clinic.visits.models import Assessment
from tests.clinic.measures.clinic_builders import lead, noon, sign_off, visited, worn
from tests.factories.complications import ComplicationFactory
from tests.factories.tasks import TaskFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db

PAGE, FILE, PEOPLE = (reverse(f"measures:{name}") for name in ("clinic", "csv", "people"))
YEAR = {"since": "Jan 2025", "until": "Dec 2025"}
LEAKS = {**YEAR, "of": "prevalence", "kind": "leak", "which": "found"}


@pytest.fixture
def signed_in(client: Client) -> Client:
    client.force_login(lead())
    return client


def listed() -> set[object]:
    rows = AccessLog.objects.filter(action="listed", subject_kind="measures")
    return set(rows.values_list("patient_uuid", flat=True))


def test_a_number_leads_to_its_people_and_the_trail_says_who_they_were(signed_in: Client) -> None:
    found = [visited(leaking=True).stoma.patient for _ in range(2)]
    other = visited(well_fitting=True).stoma.patient
    page = signed_in.get(PAGE, YEAR).content.decode()
    # Two are few, but not for somebody who may open their records: the screen says 2.
    assert (
        "?of=prevalence&amp;kind=leak&amp;which=found&amp;since=Jan+2025&amp;until=Dec+2025" in page
    )
    assert listed() == set()
    people = signed_in.get(PEOPLE, LEAKS).content.decode()
    assert all(one.record_number in people for one in found)
    assert other.record_number not in people
    assert listed() == {one.uuid for one in found}
    shown = reverse("audit_trail:log")
    assert (
        "was shown the patient in a list behind a number" in signed_in.get(shown).content.decode()
    )


def test_every_number_on_the_page_lists_as_many_as_it_says(signed_in: Client) -> None:
    for day in (date(2024, 10, 1), date(2025, 3, 2)):
        visited(day=day, leaking=True)
    made = visited(visited(day=date(2024, 10, 1), well_fitting=True).stoma, prolapse=True)
    for urgency in ("days", "routine"):
        refer(made, urgency, 4)
    Referral.objects.update(made_at=noon(date(2025, 3, 4)))
    for days in (3, 40):
        one = visited(leaking=True)
        due = timezone.localdate() - timedelta(days)
        FollowUp.objects.create(stoma=one.stoma, set_by=one, due=due, reason="Leak")
    draft = AssessmentFactory(leaking=True, visit__happened_at=noon(date(2025, 3, 9)), worn=None)
    worn(draft, date(2025, 3, 2), 4, "leak")
    sign_off(draft.visit)
    ComplicationFactory(grade="II", found_on="2025-03")
    kinds = set()
    for measure in signed_in.get(PAGE, YEAR).context["measures"]:
        for row in measure.rows:
            for cell in row.cells:
                if cell.list:
                    kinds.add(QueryDict(cell.list)["of"])
                    answer = signed_in.get(f"{PEOPLE}?{cell.list}&since=Jan+2025&until=Dec+2025")
                    assert len(answer.context["found"].people) == int(cell.inside), cell
    assert kinds == {
        "incidence", "prevalence", "graded", "healing", "wear", "overdue", "answers",
    }  # fmt: skip


@pytest.mark.parametrize(
    "query",
    [
        {"of": "prevalence", "kind": "leak", "which": "new"},
        {"of": "prevalence", "kind": "nothing", "which": "found"},
        {"of": "incidence", "kind": "leak", "which": "found"},
        {"of": "today", "which": "everybody"},
        {"of": "overdue", "which": "year"},
        {"of": "answers", "kind": "days", "which": "read"},
        {"of": "answers", "kind": "soon", "which": "asked"},
        {"of": "healing", "which": "worse"},
        {"of": "wear", "kind": "round", "which": "all"},
        {"of": "wear", "kind": "flat", "which": "leaked"},
        {"of": "graded", "kind": "VI"},
        {},
    ],
)
def test_no_list_of_what_is_no_number(signed_in: Client, query: dict[str, str]) -> None:
    assert signed_in.get(PEOPLE, {**YEAR, **query}).status_code == 404


def test_only_for_somebody_who_may_open_the_records(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    client.force_login(lead())
    patient = visited(leaking=True).stoma.patient
    rights = {**ROLE_RIGHTS, Role.LEAD: ROLE_RIGHTS[Role.LEAD] - {Right.SEE_CLINICAL}}
    monkeypatch.setattr("clinic.accounts.permissions.ROLE_RIGHTS", rights)
    assert client.get(PEOPLE, LEAKS).status_code == 403
    page = client.get(PAGE, YEAR).content.decode()
    assert "which=found" not in page
    assert "To act on today" not in page
    assert patient.record_number not in page
    assert listed() == set()


def overdue() -> dict[str, Patient]:
    """One person for each reason to act today, and by each one who is not late."""
    today, now = timezone.localdate(), timezone.now()
    people = {}
    for name, days in (("visits", -1), ("visits in time", 0)):
        made = visited(leaking=True)
        due = today + timedelta(days=days)
        FollowUp.objects.create(stoma=made.stoma, set_by=made, due=due, reason="Leak")
        people[name] = made.stoma.patient
    for name, urgency, days in (("referrals", "days", 4), ("referrals in time", "days", 3)):
        people[name] = refer(visited(leaking=True), urgency, days).stoma.patient
    for name, day in (("tasks", today - timedelta(1)), ("tasks in time", today)):
        people[name] = TaskFactory(day=day).patient
    draft = AssessmentFactory(leaking=True)
    Alarm.objects.create(assessment=draft, urgency="same_day", headline="Dark stoma.", since=now)
    people["alarms"] = draft.stoma.patient
    return people


def refer(made: Assessment, urgency: str, days: int) -> Assessment:
    Referral.objects.create(
        assessment=made, to="the surgeon", urgency=urgency, question="Look?",
        made_at=timezone.now() - timedelta(days), made_by=made.visit.clinician,
    )  # fmt: skip
    return made


def test_who_waits_today_by_reason_and_name_before_any_figure(signed_in: Client) -> None:
    people = overdue()
    answer = signed_in.get(PAGE)
    page = answer.content.decode()
    late_ones = {name: one for name, one in people.items() if "in time" not in name}
    shown = {reason.key: [one.patient for one in reason.people]
             for reason in answer.context["waiting"]}  # fmt: skip
    assert shown == {name: [one] for name, one in late_ones.items()}
    assert page.index("To act on today") < page.index("New in these dates")
    assert listed() == {one.uuid for one in late_ones.values()}
    for name in late_ones:
        there = signed_in.get(PEOPLE, {"of": "today", "which": name})
        assert [one.patient for one in there.context["found"].people] == [people[name]]


def test_late_in_the_list_is_late_for_the_referral_itself() -> None:
    now = timezone.now()
    for urgency in ("emergency", "same_day", "telephone", "days", "two_weeks", "routine"):
        for days in (0, 1, 3, 4, 14, 15, 40):
            refer(visited(), urgency, days)
    asked = set(Referral.objects.all())
    assert set(late(timezone.localdate(now))) == {one for one in asked if one.late_by(now)}


def test_more_than_a_few_are_a_press_away(signed_in: Client) -> None:
    for _ in range(AT_FIRST + 1):
        TaskFactory(day=timezone.localdate() - timedelta(1))
    page = signed_in.get(PAGE)
    assert len(page.context["waiting"][0].people) == AT_FIRST
    assert "?of=today&amp;which=tasks" in page.content.decode()
    there = signed_in.get(PEOPLE, {"of": "today", "which": "tasks"})
    assert len(there.context["found"].people) == AT_FIRST + 1


def test_nobody_of_the_lists_is_in_the_file(signed_in: Client) -> None:
    people = overdue()
    text = signed_in.get(FILE).content.decode("utf-8-sig")
    for one in people.values():
        assert one.family_name not in text
        assert one.record_number not in text


def test_a_group_in_the_address_holds_for_page_list_and_file(signed_in: Client) -> None:
    urostomy = visited(leaking=True).stoma
    urostomy.kind = "urostomy"
    urostomy.save()
    ileostomy = visited(leaking=True).stoma.patient
    group = {**YEAR, "stoma": "urostomy"}
    page = signed_in.get(PAGE, group).content.decode()
    assert "Only: Urostomy." in page
    assert "stoma=urostomy" in page
    there = signed_in.get(PEOPLE, {**LEAKS, "stoma": "urostomy"}).content.decode()
    assert urostomy.patient.record_number in there
    assert ileostomy.record_number not in there
    rows = csv.DictReader(StringIO(signed_in.get(FILE, group).content.decode("utf-8-sig")))
    assert {(row["stomas"], row["measure"]) for row in rows} == {
        ("Urostomy", "New in these dates"),
        ("Urostomy", "There at the last visit"),
    }
    # A group alone is asked about in the usual months; one that is none counts nothing.
    assert "the last 12 whole months" in signed_in.get(PAGE, {"age": "65-79"}).content.decode()
    assert "Choose one of the list." in signed_in.get(PAGE, {"age": "7"}).content.decode()


@pytest.mark.parametrize("address", [PAGE, PEOPLE])
def test_as_many_queries_for_two_as_for_twenty(signed_in: Client, address: str) -> None:
    def add(many: int) -> None:
        for _ in range(many):
            made = visited(leaking=True)
            refer(made, "days", 9)
            day = timezone.localdate() - timedelta(1)
            FollowUp.objects.create(stoma=made.stoma, set_by=made, due=day, reason="Leak")
            TaskFactory(day=day)

    def asked() -> int:
        with CaptureQueriesContext(connection) as queries:
            assert signed_in.get(address, LEAKS).status_code == 200
        return len(queries)

    add(2)
    few = asked()
    add(18)
    assert asked() == few


def test_surgeons_only_where_the_clinic_says_so(
    signed_in: Client, told_apart: Callable[[bool], None]
) -> None:
    one = visited(leaking=True).stoma
    one.surgeon = "Dr Ash"
    one.save()
    visited(leaking=True)
    told_apart(False)
    page = signed_in.get(PAGE, {**YEAR, "surgeon": "Dr Ash"})
    assert "Dr Ash" not in page.content.decode()
    assert page.context["group"].surgeon == ""
    told_apart(True)
    page = signed_in.get(PAGE, {**YEAR, "surgeon": "Dr Ash"})
    assert "Only: surgeon Dr Ash." in page.content.decode()
    there = signed_in.get(PEOPLE, {**LEAKS, "surgeon": "Dr Ash"})
    assert [person.patient for person in there.context["found"].people] == [one.patient]


@pytest.fixture
def told_apart() -> Callable[[bool], None]:
    def setting(on: bool) -> None:
        change_details(by=lead(), values={"figures_by_surgeon": on})

    return setting
