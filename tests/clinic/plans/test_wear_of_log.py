"""What the wear log says since the last visit reaches the plan, once."""

from datetime import UTC, date, datetime
from typing import Any

import pytest

from clinic.plans.bridge import findings_of
from clinic.plans.draft_plan import draft_plan
from clinic.visits.models import Assessment, WornBarrier
from planning.inputs.findings import RemovalReason, WearEpisode
from tests.clinic.plans.signed_visits import reread, signed
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory, VisitFactory, WearEpisodeFactory, ended

pytestmark = pytest.mark.django_db


def may(day: int) -> date:
    return date(2025, 5, day)


def worn(assessment: Assessment, on: int, off: int | None, reason: str = "planned") -> None:
    WornBarrier.objects.create(
        stoma=assessment.stoma,
        on=may(on),
        off=may(off) if off else None,
        reason=reason if off else "",
        entered_by=UserFactory(),
    )


def next_visit(before: Assessment, day: int, **traits: Any) -> Assessment:
    visit = VisitFactory(
        patient=before.stoma.patient, happened_at=datetime(2025, 5, day, 10, tzinfo=UTC)
    )
    made: Assessment = AssessmentFactory(stoma=before.stoma, visit=visit, **traits)
    return made


def wear(assessment: Assessment) -> tuple[WearEpisode, ...] | None:
    return findings_of(reread(assessment)).wear


def test_no_rows_anywhere_is_unknown() -> None:
    assert wear(AssessmentFactory()) is None


def test_rows_of_the_log_count_and_repeats_count_once() -> None:
    now = next_visit(signed(well_fitting=True), 16)
    WearEpisodeFactory(assessment=now, on=may(6), off=may(9), reason="leak")
    worn(now, 6, 9, "leak")
    worn(now, 9, 13, "fell_off")
    worn(now, 13, None)
    assert wear(now) == (
        WearEpisode(days=3.0, reason=RemovalReason.LEAK),
        WearEpisode(days=4.0, reason=RemovalReason.FELL_OFF),
        WearEpisode(days=3.0, reason=None),
    )


def test_a_barrier_left_open_is_worn_only_as_long_as_it_was_seen() -> None:
    now = next_visit(signed(well_fitting=True), 16)
    worn(now, 7, None)
    WearEpisodeFactory(assessment=now, on=may(10), off=may(12), reason="planned")
    assert wear(now) == (
        WearEpisode(days=2.0, reason=RemovalReason.PLANNED),
        WearEpisode(days=0.0, reason=None),
    )


def test_what_came_off_before_the_last_visit_is_that_visits() -> None:
    before = signed(well_fitting=True)  # on 6 May
    now = next_visit(before, 16)
    worn(now, 3, 6, "leak")
    assert wear(now) is None


def test_leaks_of_the_log_alone_change_the_plan() -> None:
    before = signed(well_fitting=True)
    now = next_visit(before, 16, well_fitting=True, worn=None)
    for on in (6, 7, 8):
        worn(now, on, on + 1, "leak")
    facts = draft_plan(reread(now))
    assert facts.findings.wear is not None
    assert [e.reason for e in facts.findings.wear].count(RemovalReason.LEAK) == 3
    ended(now, "discarded")
    calm = next_visit(before, 16, well_fitting=True, worn=None)
    WornBarrier.objects.all().delete()
    assert draft_plan(reread(calm)).plan != facts.plan


def test_a_contradiction_of_the_planner_is_said_at_the_visits_own_row() -> None:
    """Rows of the log never shift the place of the visit's own."""
    now = next_visit(signed(well_fitting=True), 16)
    worn(now, 7, 9, "leak")
    WearEpisodeFactory(assessment=now, on=may(17), off=None, reason="")
    live = draft_plan(reread(now))
    own = reread(now).wear_rows.get()
    assert list(live.errors) == [f"wear-{own.pk}-days"]


def test_rows_that_contradict_one_another_are_left_out_and_said() -> None:
    """As the course counts: one barrier recorded twice would count as two."""
    now = next_visit(signed(well_fitting=True), 16, well_fitting=True, worn=None)
    WearEpisodeFactory(assessment=now, on=may(7), off=may(10), reason="leak")
    worn(now, 8, 11, "fell_off")
    worn(now, 12, 15)
    live = draft_plan(reread(now))
    assert live.findings.wear == (WearEpisode(days=3.0, reason=RemovalReason.PLANNED),)
    assert live.findings.wear_left_out == 2
    assert live.plan is not None
    said = [notice.text for notice in live.plan.notices if "contradict" in notice.text]
    assert [text.partition(" are")[0] for text in said] == [
        "2 rows of the wear log contradict one another and"
    ]


def test_a_row_left_out_shifts_no_error_to_another_row() -> None:
    now = next_visit(signed(well_fitting=True), 16)
    WearEpisodeFactory(assessment=now, on=may(7), off=may(10), reason="leak")
    worn(now, 8, 11, "fell_off")
    late = WearEpisodeFactory(assessment=now, on=may(17), off=None, reason="")
    assert list(draft_plan(reread(now)).errors) == [f"wear-{late.pk}-days"]
