"""Whose sheets the page of a day lists, under which heading, and which are ticked."""

import re
from datetime import date, datetime, timedelta
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role
from clinic.documents.day_batch.day_lists import DayLists, Row, day_lists
from clinic.documents.models import SheetEdit
from clinic.follow_up.models import FollowUp
from clinic.plans.actions.sign import sign_visit
from clinic.plans.draft_plan import draft_plan
from clinic.referrals.queries import day_began
from clinic.visits.models import Assessment
from tests.clinic.documents import made_visits, paper
from tests.clinic.documents.made_papers import printed_on, printed_paper
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory, StomaFactory
from tests.factories.visits import AssessmentFactory, VisitFactory

pytestmark = pytest.mark.django_db

TODAY = date(2026, 3, 2)


def noon(day: date) -> datetime:
    return day_began(day) + timedelta(hours=12)


def charted(day: date = TODAY, **more: Any) -> Assessment:
    """A draft of that day with everything decided."""
    stoma = more.pop("stoma", None) or StomaFactory.create()
    visit = more.pop("visit", None)
    visit = visit or VisitFactory.create(patient=stoma.patient, happened_at=noon(day))
    made = AssessmentFactory.create(stoma=stoma, visit=visit, well_fitting=True)
    plan = draft_plan(made_visits.fresh(made)).plan
    assert plan is not None
    made_visits.decide(made, plan)
    return made


def seen(day: date = TODAY, *, signed: date | None = None, **more: Any) -> Assessment:
    made = charted(day, **more)
    sign_visit(visit=made.visit, by=made.visit.clinician, at=noon(signed or day))
    return made


def due(day: date = TODAY) -> Assessment:
    """Seen a month before, and asked to come on ``day``."""
    made = seen(day - timedelta(days=30))
    FollowUp.objects.filter(set_by=made).update(due=day)
    return made


def lists(day: date = TODAY, today: date = TODAY) -> DayLists:
    return day_lists(day, today)


def only(rows: tuple[Row, ...]) -> Row:
    assert len(rows) == 1
    return rows[0]


class TestWhoStandsWhere:
    def test_due_and_seen_are_listed_apart(self) -> None:
        coming, came = due(), seen()
        assert only(lists().due).assessment == coming
        assert only(lists().seen).assessment == came

    def test_who_came_is_no_longer_due(self) -> None:
        before = due()
        new = seen(stoma=before.stoma)
        assert lists().due == ()
        assert only(lists().seen).assessment == new

    def test_no_sheet_is_listed_twice(self) -> None:
        """Asked to come back on the very day: the new sheet, under the visit that was."""
        made = seen()
        FollowUp.objects.filter(set_by=made).update(due=TODAY)
        assert [row.assessment for row in lists().rows] == [made]
        assert only(lists().seen).assessment == made

    @pytest.mark.parametrize(("happened", "signed"), [(0, 0), (-1, 0), (0, 1)])
    def test_seen_or_signed_on_the_day(self, happened: int, signed: int) -> None:
        day = TODAY + timedelta(days=happened)
        made = seen(day, signed=TODAY + timedelta(days=signed))
        row = only(lists().seen)
        assert row.assessment == made
        assert row.visit_day == (None if happened == 0 else day)

    @pytest.mark.parametrize("days", [-1, 1])
    def test_another_days_visit_is_not_in_it(self, days: int) -> None:
        seen(TODAY + timedelta(days=days))
        assert lists().rows == ()

    def test_the_day_is_the_clinics_own(self) -> None:
        """Its first minute belongs to it, the next day's first does not."""
        for start in (day_began(TODAY), day_began(TODAY + timedelta(days=1))):
            stoma = StomaFactory.create()
            visit = VisitFactory.create(patient=stoma.patient, happened_at=start)
            made = charted(stoma=stoma, visit=visit)
            sign_visit(visit=made.visit, by=made.visit.clinician, at=start)
        row = only(lists().seen)
        assert row.assessment.visit.happened_at == day_began(TODAY)

    def test_a_draft_is_counted_and_not_listed(self) -> None:
        charted()
        charted(TODAY - timedelta(days=1))
        assert (lists().rows, lists().unsigned) == ((), 1)

    def test_two_stomas_of_one_visit_are_told_apart(self) -> None:
        patient = PatientFactory.create()
        visit = VisitFactory.create(patient=patient, happened_at=noon(TODAY))
        for kind in ("ileostomy", "urostomy"):
            charted(stoma=StomaFactory.create(patient=patient, kind=kind), visit=visit)
        sign_visit(visit=visit, by=visit.clinician, at=noon(TODAY))
        assert [row.place for row in lists().seen] == ["stoma 1 of 2", "stoma 2 of 2"]


class TestWhatIsTicked:
    def test_a_new_sheet_until_it_is_printed(self) -> None:
        made = seen()
        assert only(lists().seen).ticked
        printed_on(made, noon(TODAY))
        row = only(lists().seen)
        assert (row.ticked, row.printed) == (False, noon(TODAY))

    def test_a_sheet_printed_before_signing_is_to_be_printed_again(self) -> None:
        made = charted()
        printed_paper(made)
        sign_visit(visit=made.visit, by=made.visit.clinician, at=noon(TODAY))
        row = only(lists().seen)
        assert (row.ticked, row.printed, row.printed_before) == (True, None, True)

    def test_a_sheet_changed_since_is_to_be_printed_again(self) -> None:
        made = seen()
        printed_on(made, noon(TODAY))
        SheetEdit.objects.create(
            assessment=made,
            after_steps="Call me.",
            changed_by=made.visit.clinician,
            changed_at=noon(TODAY) + timedelta(minutes=1),
        )
        assert only(lists().seen).ticked

    def test_an_old_sheet_of_who_was_seen_again_is_not(self) -> None:
        old = seen()
        new = seen(TODAY + timedelta(days=1), stoma=old.stoma)
        row = only(lists(today=TODAY + timedelta(days=1)).seen)
        assert not row.ticked
        assert row.newer is not None
        assert row.newer.assessment == new

    @pytest.mark.parametrize(("day_of_print", "ticked"), [(-1, True), (0, False)])
    def test_a_due_sheet_unless_it_was_printed_today(self, day_of_print: int, ticked: bool) -> None:
        printed_on(due(), noon(TODAY + timedelta(days=day_of_print)))
        assert only(lists().due).ticked is ticked

    @pytest.mark.parametrize(("days", "ticked"), [(-1, False), (0, True), (1, True)])
    def test_a_due_sheet_unless_its_day_is_over(self, days: int, ticked: bool) -> None:
        day = TODAY + timedelta(days=days)
        due(day)
        assert only(lists(day).due).ticked is ticked


def test_queries_do_not_grow() -> None:
    due()
    seen()
    with CaptureQueriesContext(connection) as few:
        lists()
    for _ in range(3):
        printed_paper(due())
        printed_paper(seen())
    with CaptureQueriesContext(connection) as many:
        assert len(lists().rows) == 8
    assert len(many) == len(few)


# --- the page -------------------------------------------------------------------------------
def page(client: Client, asked: str = "", role: Role = Role.DESK) -> str:
    client.force_login(UserFactory.create(role=role))
    return client.get(f"{reverse('documents:day_sheets')}{asked}").content.decode()


def ticks(text: str) -> set[str]:
    return set(re.findall(r'value="([0-9a-f-]{36})" checked', text))


def todays() -> tuple[Assessment, Assessment]:
    today = timezone.localdate()
    return due(today), seen(today)


def test_both_lists_are_headed_and_ticked_with_nothing_clinical(client: Client) -> None:
    coming, came = todays()
    text = page(client)
    new, old = text.index("Seen on this day"), text.index("Due on this day")
    assert new < text.index(str(came.uuid)) < old < text.index(str(coming.uuid))
    assert ticks(text) == {str(coming.uuid), str(came.uuid)}
    assert coming.stoma.short_name not in text


def test_one_group_is_ticked_without_a_script(client: Client) -> None:
    coming, came = todays()
    assert ticks(page(client, "?tick=seen")) == {str(came.uuid)}
    assert ticks(page(client, "?tick=due")) == {str(coming.uuid)}
    assert ticks(page(client, "?tick=none")) == set()
    assert len(ticks(page(client, "?tick=other"))) == 2


def test_the_new_sheets_print_as_one_file(client: Client) -> None:
    _, came = todays()
    client.force_login(UserFactory.create(role=Role.NURSE))
    answer: Any = client.post(reverse("documents:day_sheets"), {"sheet": [str(came.uuid)]})
    text = paper.whole_text(b"".join(answer.streaming_content))
    assert came.stoma.patient.record_number in text
    assert ticks(page(client, "?tick=")) == {
        str(one) for one in FollowUp.objects.filter(due=timezone.localdate())
        .values_list("set_by__uuid", flat=True)
    }  # fmt: skip


def test_a_day_of_drafts_says_where_they_are(client: Client) -> None:
    charted(timezone.localdate())
    text = page(client)
    assert "1 visit of this day is not signed yet" in text
    assert "No patients due on this day" in text


@pytest.mark.parametrize("day", ["9999-12-31", "0001-01-01", "2026-13-01", "x"])
def test_a_day_without_a_neighbour_is_today(client: Client, day: str) -> None:
    _, came = todays()
    assert str(came.uuid) in page(client, f"?day={day}")
