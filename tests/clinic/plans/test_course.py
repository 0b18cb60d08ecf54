"""Rows to a course; trials by what was said or by the figures; the last plan's line."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.patients.models import Stoma
from clinic.plans.bridge.history import helped_by
from clinic.plans.course import _short, course_of, report_of
from clinic.plans.draft_plan import draft_plan
from clinic.plans.models import Decision, PlanSnapshot
from clinic.referrals.actions.answer import answer_referral
from clinic.referrals.models import Referral
from clinic.visits.models import Assessment, PouchingSystem, WornBarrier
from planning import recommend
from planning.course.record import EventKind, Worn
from planning.course.results import PlanOutcome, Verdict
from planning.inputs.findings import RemovalReason
from planning.results.snapshot import findings_from_dict, history_from_dict, plan_to_dict
from tests.clinic.plans.signed_visits import accept, reread, sign
from tests.factories.accounts import UserFactory
from tests.factories.visits import HAPPENED_AT, AssessmentFactory, WearEpisodeFactory, ended

pytestmark = pytest.mark.django_db

DAY = HAPPENED_AT.date()


def charted(stoma: Stoma | None = None, after: int = 0, **traits: Any) -> Assessment:
    """A draft, ``after`` days from the first visit, without a wear row of its own."""
    if stoma is not None:
        traits["stoma"] = stoma
    made: Assessment = AssessmentFactory(
        visit__happened_at=HAPPENED_AT + timedelta(days=after), worn=None, **traits
    )
    made.wear_rows.all().delete()
    return made


def closed(assessment: Assessment) -> Assessment:
    accept(assessment)
    sign(assessment)
    return reread(assessment)


def wore(stoma: Stoma, start: int, spans: list[tuple[int, str]]) -> None:
    """Barriers of the log page, from so many days after the first visit."""
    by = UserFactory()
    for days, reason in spans:
        on = DAY + timedelta(days=start)
        start += days
        off = DAY + timedelta(days=start)
        WornBarrier.objects.create(stoma=stoma, on=on, off=off, reason=reason, entered_by=by)


def leaked_then_held() -> Assessment:
    """Six weeks of leaks, a visit and its plan, and today's sound draft: none since."""
    first = charted(leaking=True)
    wore(first.stoma, -42, [(2, "leak")] * 21)
    closed(first)
    wore(first.stoma, 0, [(4, "planned")] * 7)
    return charted(first.stoma, 28, well_fitting=True)


# --- the course -------------------------------------------------------------------------------
def test_a_course_holds_what_was_signed_and_what_was_agreed() -> None:
    first = charted(leaking=True)
    accept(first)
    refused = Decision.objects.filter(assessment=first, key="protectant")
    refused.update(choice="dropped", reason="Stings")
    sign(first)
    charted(first.stoma, 14, leaking=True)  # a draft is no part of it
    found = course_of(first.stoma)
    snapshot = PlanSnapshot.objects.get()
    assert [visit.day for visit in found.visits] == [DAY]
    assert found.visits[0].findings == findings_from_dict(snapshot.findings)
    assert found.visits[0].supplies == frozenset(snapshot.plan["supplies"]) - {"protectant"}
    assert found.visits[0].changed
    assert not any("protectant" in words for words in found.visits[0].changed)
    assert found.kind == first.stoma.kind
    assert found.today == timezone.localdate()


def test_only_what_is_new_and_worn_counts_as_changed() -> None:
    assert course_of(closed(charted(well_fitting=True)).stoma).visits[0].changed == ()
    leaking = course_of(closed(charted(leaking=True)).stoma).visits[0]
    plan = PlanSnapshot.objects.latest("pk").plan
    new = [r for r in plan["recommendations"] if r["change"] != "keep" and r["kind"] != "teach"]
    assert 0 < len(leaking.changed) <= len(new)


def test_a_supply_that_was_stopped_is_named_so() -> None:
    first = charted(well_fitting=True)
    PouchingSystem.objects.filter(assessment=first).update(accessories=["powder"])
    (change,) = course_of(closed(first).stoma).visits[0].changed
    assert change == "stopped: plain powder"


def test_a_barrier_is_named_whole() -> None:
    """The comma inside a name does not end it."""
    assert _short("flat_flexible", "") == "flat flexible barrier"
    assert _short("soft_convex_deep", "") == "soft convex barrier"


def test_what_was_done_instead_is_a_change_in_the_clinicians_words() -> None:
    first = charted(well_fitting=True)
    accept(first)
    Decision.objects.filter(assessment=first, key="flat_flexible").update(
        choice="changed", changed_to="a firm flat one", reason="Folds"
    )
    sign(first)
    visit = course_of(first.stoma).visits[0]
    assert visit.changed == ("a firm flat one",)
    assert "flat_flexible" not in visit.supplies


def test_the_log_comes_over_with_what_is_still_on() -> None:
    first = closed(charted(leaking=True))
    wore(first.stoma, 0, [(3, "leak"), (0, "itch_or_pain")])
    on = DAY + timedelta(days=3)
    WornBarrier.objects.create(stoma=first.stoma, on=on, entered_by=UserFactory())
    assert course_of(first.stoma).worn == (
        Worn(DAY, on, RemovalReason.LEAK),
        Worn(on, on, RemovalReason.ITCH_OR_PAIN),
        Worn(on, seen_on=on),
    )


def test_contradictory_records_come_over_as_such() -> None:
    first = charted(leaking=True)
    WearEpisodeFactory(assessment=first, on=DAY - timedelta(days=3), off=DAY, reason="leak")
    closed(first)
    wore(first.stoma, -3, [(2, "leak")])
    worn = course_of(first.stoma).worn
    assert worn is not None
    assert [one.disputed for one in worn] == [True, True]


def test_no_log_is_none() -> None:
    assert course_of(closed(charted(well_fitting=True)).stoma).worn is None


def test_a_barrier_put_on_over_another_is_not_still_on() -> None:
    first = charted(leaking=True)
    WearEpisodeFactory(assessment=first, on=DAY - timedelta(days=2), off=None, reason="")
    closed(first)
    later = DAY + timedelta(days=3)
    WornBarrier.objects.create(stoma=first.stoma, on=later, entered_by=UserFactory())
    worn = course_of(first.stoma).worn
    assert worn is not None
    assert worn[0] == Worn(DAY - timedelta(days=2), DAY, None)
    assert worn[1] == Worn(later, seen_on=later)


def test_surgery_changes_questions_answers_and_closing_are_events() -> None:
    first = charted(leaking=True, measurement__colour="black_brown_grey")
    closed(first)
    asked = Referral.objects.filter(assessment=first).first()
    assert asked is not None
    waiting = {e.kind: e for e in course_of(first.stoma).events}[EventKind.REFERRAL]
    assert waiting.waits
    assert asked.question.partition("\n")[0] in waiting.text
    for referral in Referral.objects.filter(assessment=first):
        answer_referral(referral=referral, answer="Watch it.", by=UserFactory(), at=timezone.now())
    stoma = Stoma.objects.get(pk=first.stoma.pk)
    stoma.closed_on = timezone.localdate()
    stoma.save()
    events = course_of(stoma).events
    kinds = {event.kind for event in events}
    assert {EventKind.SURGERY, EventKind.REFERRAL, EventKind.ANSWER, EventKind.CLOSED} <= kinds
    assert not any(event.waits for event in events)
    assert [e.day for e in events] == sorted(e.day for e in events)
    assert course_of(stoma).closed == stoma.closed_on


def test_a_course_costs_the_same_however_long_it_is(django_assert_num_queries: Any) -> None:
    stoma = closed(charted(leaking=True)).stoma
    wore(stoma, 0, [(3, "leak")])
    with django_assert_num_queries(8):
        report_of(stoma)
    for after in (14, 28, 42):
        closed(charted(stoma, after, leaking=True))
        wore(stoma, after, [(3, "leak"), (4, "planned")])
    with django_assert_num_queries(8):
        report = report_of(stoma)
    assert len(report.outcomes) == 4


# --- trials -----------------------------------------------------------------------------------
def test_figures_count_where_it_is_not_recorded_whether_it_helped() -> None:
    history = draft_plan(reread(leaked_then_held())).history
    assert [trial.helped for trial in history.trials] == [True]


@pytest.mark.parametrize("said", [True, False])
def test_what_was_said_goes_before_the_figures(said: bool) -> None:
    draft = leaked_then_held()
    Assessment.objects.filter(pk=draft.pk).update(last_plan_helped=said)
    assert draft_plan(reread(draft)).history.trials[0].helped is said


def test_too_few_barriers_leave_it_open() -> None:
    first = closed(charted(leaking=True))
    draft = charted(first.stoma, 14)
    assert draft_plan(reread(draft)).history.trials[0].helped is None


def test_what_has_not_been_shown_yet_is_no_failed_trial() -> None:
    """Still sore and leaking after two weeks, without a log: the plan was not judged."""
    sore = closed(charted(leaking=True))
    draft = draft_plan(reread(charted(sore.stoma, 14, leaking=True)))
    assert draft.history.trials[0].helped is None


@pytest.mark.parametrize(
    ("verdict", "persists", "changed", "helped"),
    [
        (Verdict.HELPED, True, ("ring",), True),
        (Verdict.WORSE, True, ("ring",), False),
        (Verdict.NO_DIFFERENT, True, ("ring",), False),
        (Verdict.NO_DIFFERENT, False, ("ring",), None),  # nothing is left to improve
        (Verdict.CANNOT_TELL, True, ("ring",), None),
        (Verdict.WORSE, True, (), None),  # it changed nothing
        (Verdict.HELPED, True, (), None),
    ],
)
def test_what_counts_as_a_trial_that_failed(
    verdict: Verdict, persists: bool, changed: tuple[str, ...], helped: bool | None
) -> None:
    one = PlanOutcome(DAY, None, verdict, "", (), frozenset(), frozenset(), changed, persists)
    assert helped_by(one) is helped


def test_a_pressure_mark_after_a_dome_reaches_the_next_plan_as_hurt() -> None:
    first = closed(
        charted(
            leaking=True,
            measurement__protrusion_mm=6,
            system__opening_length_mm=34,
            system__opening_width_mm=32,
        )
    )
    worn = set(PlanSnapshot.objects.get().plan["supplies"])
    dome = {key for key in worn if "_convex_" in key}
    assert dome
    marked = charted(
        first.stoma,
        14,
        leaking=True,
        system__profile="convex",
        system__flexibility="",
        finding__kind="pressure_mark",
    )
    trial = draft_plan(reread(marked)).history.trials[0]
    assert dome <= trial.hurt <= trial.supplies


def test_what_is_logged_later_does_not_change_an_earlier_visit() -> None:
    draft = leaked_then_held()
    before = draft_plan(reread(draft)).history
    wore(draft.stoma, 29, [(1, "leak")] * 9)
    assert draft_plan(reread(draft)).history == before


def test_a_signed_plan_can_be_made_again_whatever_was_logged_since() -> None:
    draft = leaked_then_held()
    closed(draft)
    wore(draft.stoma, 28, [(1, "leak")] * 9)
    for snapshot in PlanSnapshot.objects.all():
        history = history_from_dict(snapshot.history)
        again = recommend(findings_from_dict(snapshot.findings), history)
        assert plan_to_dict(again) == snapshot.plan
    latest = PlanSnapshot.objects.get(assessment=draft)
    assert latest.history["trials"][0]["helped"] is True


def test_the_live_plan_costs_thirteen_queries_however_long_the_record(
    django_assert_max_num_queries: Any,
) -> None:
    draft = leaked_then_held()
    stored = reread(draft)
    with django_assert_max_num_queries(13):
        draft_plan(stored)
    ended(draft, "discarded")
    for after in (7, 14, 21):
        closed(charted(draft.stoma, after, leaking=True))
    stored = reread(charted(draft.stoma, 28, well_fitting=True))
    with django_assert_max_num_queries(13):
        assert len(draft_plan(stored).history.trials) == 4


# --- the nurse's page ---------------------------------------------------------------------------
def test_the_visit_page_says_how_the_last_plan_did(client: Client) -> None:
    draft = leaked_then_held()
    client.force_login(UserFactory(role="nurse"))
    page = client.get(reverse("charting:chart", args=[draft.uuid])).content.decode()
    assert "It helped. Leaks a week went from 3.5 to 0 (14 leaks in 28 days before, 0 in " in page


def test_the_record_says_how_the_last_change_did(client: Client) -> None:
    draft = leaked_then_held()
    client.force_login(UserFactory(role="nurse"))
    page = client.get(reverse("patients:record", args=[draft.visit.patient.uuid])).content.decode()
    assert "The last change (6 May 2025:" in page
    assert "Leaks a week went from 3.5 to 0" in page


def test_the_report_answers_for_rows() -> None:
    draft = leaked_then_held()
    closed(draft)
    report = report_of(draft.stoma)
    assert report.outcomes[0].verdict is Verdict.HELPED
    assert len(report.series.bars) == 28
    assert report.series.bars[0].on == DAY - timedelta(days=42)
