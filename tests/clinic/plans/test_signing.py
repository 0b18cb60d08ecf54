"""Signing: everything decided, the plan stored as it stood, then nothing moves."""

from datetime import date, timedelta

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.follow_up.models import FollowUp
from clinic.plans.actions.decide import save_decisions
from clinic.plans.actions.sign import NotReadyError
from clinic.plans.decidables import decidables
from clinic.plans.decision_forms import Decisions
from clinic.plans.draft_plan import draft_plan
from clinic.plans.models import Decision, PlanSnapshot
from clinic.plans.plan_with_decisions import decided_plan
from clinic.plans.proposed_day import proposed_day
from clinic.referrals.actions.answer import answer_referral
from clinic.referrals.models import Referral
from clinic.visits.models import Assessment, PendingEntry, SkinFinding
from clinic.visits.policies import NotAllowedNow
from planning import RULE_SET, recommend
from planning.results.snapshot import (
    findings_from_dict,
    history_from_dict,
    plan_from_dict,
    plan_to_dict,
)
from tests.clinic.plans.signed_visits import accept, referred, reread, sign
from tests.clinic.visits.posting import posted
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def leaking() -> Assessment:
    return AssessmentFactory(leaking=True)


def test_an_undecided_plan_is_not_signed(leaking: Assessment) -> None:
    with pytest.raises(NotReadyError) as raised:
        sign(leaking)
    assert any(problem.message.startswith("Decide:") for problem in raised.value.problems)
    assert not PlanSnapshot.objects.exists()
    leaking.visit.refresh_from_db()
    assert leaking.visit.is_draft


def test_a_visit_that_saw_nothing_is_signed_only_with_a_reason_in_the_note() -> None:
    empty = AssessmentFactory()
    accept(empty)
    with pytest.raises(NotReadyError) as raised:
        sign(empty)
    assert [problem.field for problem in raised.value.problems] == ["visit-note"]
    empty.visit.note = "Came for supplies alone."
    empty.visit.save()
    sign(empty)
    assert reread(empty).visit.is_signed
    last = timezone.localdate(empty.visit.happened_at) + timedelta(days=14)
    assert FollowUp.objects.get().due <= last


def test_an_entry_still_to_correct_keeps_the_visit_open(leaking: Assessment) -> None:
    accept(leaking)
    PendingEntry.objects.create(assessment=leaking, prefix="output", data={})
    with pytest.raises(NotReadyError) as raised:
        sign(leaking)
    assert [problem.field for problem in raised.value.problems] == ["output"]


def test_the_stored_plan_can_be_made_again_from_what_is_stored(leaking: Assessment) -> None:
    accept(leaking)
    sign(leaking)
    snapshot = PlanSnapshot.objects.get()
    again = recommend(findings_from_dict(snapshot.findings), history_from_dict(snapshot.history))
    assert plan_to_dict(again) == snapshot.plan
    assert plan_from_dict(snapshot.plan) == again
    assert snapshot.rule_set == RULE_SET


def test_signing_sets_the_next_visit_and_closes_the_one_before(leaking: Assessment) -> None:
    accept(leaking)
    sign(leaking)
    first = FollowUp.objects.get()
    plan = plan_from_dict(PlanSnapshot.objects.get().plan)
    assert first.due == proposed_day(plan, leaking).day == PlanSnapshot.objects.get().planned_day
    later = AssessmentFactory(
        well_fitting=True,
        stoma=leaking.stoma,
        visit__happened_at=leaking.visit.happened_at + timedelta(days=14),
    )
    accept(later)
    sign(later)
    first.refresh_from_db()
    assert first.done_by == later.visit
    assert FollowUp.objects.open().get().set_by == later


def test_an_emergency_becomes_a_referral(leaking: Assessment) -> None:
    leaking.measurement.colour = "black_brown_grey"
    leaking.measurement.save()
    accept(leaking)
    sign(leaking)
    referral = Referral.objects.get(urgency="emergency")
    assert referral.to
    assert referral.question


def test_a_referral_is_answered_once() -> None:
    referral = referred()
    surgeon = UserFactory(role="surgeon")
    answer_referral(referral=referral, answer="Seen today.", by=surgeon, at=timezone.now())
    with pytest.raises(NotAllowedNow):
        answer_referral(referral=referral, answer="Again.", by=surgeon, at=timezone.now())
    referral.refresh_from_db()
    assert referral.answer == "Seen today."


def test_a_signed_visit_is_not_signed_again(leaking: Assessment) -> None:
    accept(leaking)
    sign(leaking)
    with pytest.raises(NotAllowedNow):
        sign(leaking)


def decide(assessment: Assessment, key: str, **given: str) -> Decisions:
    stored = reread(assessment)
    plan = draft_plan(stored).plan
    assert plan is not None
    data = posted(stored)
    about = {item.key: item.about for item in decidables(plan, stored)}
    for name, value in {"about": about[key], **given}.items():
        data[f"decision-{key}-{name}"] = value
    save_decisions(plan=plan, assessment=stored, data=data)
    return Decisions(plan, reread(assessment))


def first_key(assessment: Assessment) -> str:
    plan = draft_plan(reread(assessment)).plan
    assert plan is not None
    return plan.recommendations[0].key


@pytest.mark.parametrize("choice", ["changed", "dropped"])
def test_changing_or_dropping_asks_why_and_keeps_what_was_typed(
    leaking: Assessment, choice: str
) -> None:
    key = first_key(leaking)
    decisions = decide(leaking, key, choice=choice, changed_to="something else")
    assert decisions.errors()[f"decision-{key}-reason"] == ["Write why, in a few words."]
    assert not Decision.objects.exists()
    stored = reread(leaking)
    plan = draft_plan(stored).plan
    assert plan is not None
    shown = Decisions(plan, stored).by_key[key]
    assert shown["changed_to"].value() == "something else"
    decide(leaking, key, choice=choice, changed_to="something else", reason="She prefers it")
    assert Decision.objects.get().choice == choice
    assert not reread(leaking).pending.exists()


def test_a_plan_that_moved_on_asks_again(leaking: Assessment) -> None:
    accept(leaking)
    leaking.measurement.length_mm = 44
    leaking.measurement.width_mm = 44
    leaking.measurement.save()
    stored = reread(leaking)
    plan = draft_plan(stored).plan
    assert plan is not None
    undecided = {item.key for item in Decisions(plan, stored).undecided()}
    assert undecided
    with pytest.raises(NotReadyError):
        sign(leaking)


def test_another_date_for_the_next_visit(leaking: Assessment) -> None:
    decide(leaking, "follow_up", choice="changed", changed_to="soon", reason="Holiday")
    assert not Decision.objects.exists()
    decide(leaking, "follow_up", choice="changed", changed_to="2025-06-30", reason="Holiday")
    accept(leaking)
    sign(leaking)
    follow_up = FollowUp.objects.get()
    assert (follow_up.due, follow_up.reason) == (date(2025, 6, 30), "Holiday")


def test_what_was_dropped_is_not_in_the_decided_technique(leaking: Assessment) -> None:
    accept(leaking)
    before = decided_plan(reread(leaking))
    assert before is not None
    with_owner = [s for s in before.steps() if s.belongs_to]
    assert with_owner, "the plan ties its steps to what they carry out"
    key = with_owner[0].belongs_to[0]
    Decision.objects.filter(assessment=leaking, key=key).update(choice="dropped", reason="No")
    after = decided_plan(reread(leaking))
    assert after is not None
    lost = {s.key for s in before.steps()} - {s.key for s in after.steps()}
    assert lost == {s.key for s in before.steps() if key in s.belongs_to}


def test_the_history_of_trials_reaches_the_next_plan(leaking: Assessment) -> None:
    accept(leaking)
    sign(leaking)
    later = AssessmentFactory(
        well_fitting=True,
        stoma=leaking.stoma,
        last_plan_helped=True,
        visit__happened_at=leaking.visit.happened_at + timedelta(days=14),
    )
    history = draft_plan(reread(later)).history
    assert len(history.previous) == 1
    assert history.trials[0].helped is True
    assert history.trials[0].supplies == frozenset(PlanSnapshot.objects.get().plan["supplies"])


def test_a_contradiction_stops_the_plan_and_names_the_field(leaking: Assessment) -> None:
    measurement = leaking.measurement
    measurement.prolapse, measurement.protrusion_mm = "present", -5
    measurement.save()
    live = draft_plan(reread(leaking))
    assert live.plan is None
    assert all(name.startswith("stoma-") for name in live.errors)
    with pytest.raises(NotReadyError):
        sign(leaking)


def test_an_error_in_a_row_names_that_row(leaking: Assessment) -> None:
    second = SkinFinding.objects.create(
        assessment=leaking, position=9, kind="erythema", hours=[1], inner_mm=None, outer_mm=0
    )
    live = draft_plan(reread(leaking))
    if live.plan is None:
        assert any(str(second.pk) in name for name in live.errors)


def test_an_answer_waits_on_the_senders_first_page_until_they_read_it(client: Client) -> None:
    referral = referred()
    surgeon = UserFactory(role="surgeon")
    answer_referral(referral=referral, answer="Seen today.", by=surgeon, at=timezone.now())
    client.force_login(UserFactory(role="nurse"))
    assert "new answer" not in client.get(reverse("clinic_day:day")).content.decode()
    client.get(reverse("referrals:referral", args=[referral.uuid]))  # another's look does not count
    client.force_login(referral.made_by)
    assert "1 new answer to you" in client.get(reverse("clinic_day:day")).content.decode()
    client.get(reverse("referrals:referral", args=[referral.uuid]))
    assert "new answer" not in client.get(reverse("clinic_day:day")).content.decode()
