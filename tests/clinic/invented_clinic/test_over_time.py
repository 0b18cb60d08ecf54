"""What the demo shows over time: wear logs, verdicts, flags, questions, days moved."""

from itertools import pairwise
from typing import Any

import pytest
from django.db.models import Model
from django.utils import timezone

from clinic.accounts.models import User
from clinic.follow_up.models import FollowUp, Move
from clinic.plans.course import report_of
from clinic.plans.models import ChosenCode
from clinic.referrals.models import Referral, Urgency
from clinic.referrals.models.referral import TODAY
from clinic.visits.models import WornBarrier
from clinic.visits.wear_log.whole_log import Logged, log_of
from fixtures.invented_clinic.accounts import DESK, NURSE, SURGEON
from fixtures.invented_clinic.load import Loaded
from planning.course import flags
from planning.course.results import Judged, PlanOutcome, Verdict
from tests.clinic.invented_clinic.record import seen, stoma_of

pytestmark = pytest.mark.django_db

TELLERS = [
    ("Regadera", Verdict.HELPED),
    ("Fanous", Verdict.CANNOT_TELL),
    ("Birdbath", Verdict.WORSE),
]


def changes(family: str) -> list[PlanOutcome]:
    """Outcomes of the plans that changed something, oldest first."""
    return [one for one in report_of(stoma_of(family)).outcomes if one.changed]


def log(family: str, kind: str = "") -> tuple[Logged, ...]:
    """The whole wear log."""
    return log_of(stoma_of(family, kind)) or ()


# --- verdicts ---------------------------------------------------------------------------------
@pytest.mark.parametrize(("family", "verdict"), TELLERS)
def test_a_diary_tells_how_a_plan_did(loaded: Loaded, family: str, verdict: Verdict) -> None:
    """Not by the skin alone: leaks and wear say the same, from five barriers before and since."""
    first = changes(family)[0]
    assert first.verdict is verdict
    of = {finding.of: finding.verdict for finding in first.findings}
    assert of[Judged.LEAKS] is of[Judged.WEAR] is verdict


@pytest.mark.parametrize("family", ["Fanous", "Weathervane"])
def test_the_newest_change_is_too_young_to_judge(loaded: Loaded, family: str) -> None:
    last = changes(family)[-1]
    assert last.verdict is Verdict.CANNOT_TELL
    assert "It is judged at the first visit from" in last.text


def test_who_went_back_is_well_again(loaded: Loaded) -> None:
    worse, again = changes("Birdbath")
    assert (worse.verdict, again.verdict) == (Verdict.WORSE, Verdict.HELPED)


# --- two years --------------------------------------------------------------------------------
def test_one_course_is_two_years_long(loaded: Loaded) -> None:
    report = report_of(stoma_of("Weathervane"))
    assert len(seen("Weathervane")) >= 10
    assert len(report.series.bars) >= 150
    days = [point.day for point in report.series.of("protrusion")]
    assert (days[-1] - days[0]).days > 650
    assert {one.verdict for one in report.outcomes} >= {Verdict.CANNOT_TELL, Verdict.WORSE}
    assert max(point.value for point in report.series.of("output")) > 1500
    assert {flag.key for flag in report.flags} >= {"retraction", "wear", "skin"}


# --- flags ------------------------------------------------------------------------------------
def test_every_rule_over_time_strikes_somewhere(loaded: Loaded) -> None:
    families = ("Sideboard", "Weathervane", "Cupboard", "Snowdrop", "Drizzle", "Dovecote")
    struck = {flag.key for family in families for flag in report_of(stoma_of(family)).flags}
    of_stoma = {"separation", "retraction", "prolapse", "hernia", "size"}
    assert struck == {"high_output", "skin", "wear"} | of_stoma
    assert len(struck) == len(flags.RULES)


# --- the wear log -----------------------------------------------------------------------------
def test_diaries_were_entered_when_they_were_brought(loaded: Loaded) -> None:
    entered = WornBarrier.objects.filter(stoma=stoma_of("Weathervane")).dates("entered_at", "day")
    visits = {timezone.localdate(one.visit.happened_at) for one in seen("Weathervane")}
    assert set(entered) == visits | {timezone.localdate()}


def test_nothing_was_worn_in_the_future(loaded: Loaded) -> None:
    today = timezone.localdate()
    assert not WornBarrier.objects.filter(on__gt=today).exists()
    assert not WornBarrier.objects.filter(off__gt=today).exists()


def test_a_barrier_is_still_on(loaded: Loaded) -> None:
    assert log("Regadera")[-1].off is None


def test_one_has_no_end_written_down(loaded: Loaded) -> None:
    assert [one.superseded for one in log("Thunderhead")].count(True) == 1


def test_a_diary_contradicts_a_visit(loaded: Loaded) -> None:
    said = [one for one in log("Candlestand") if one.disputed]
    assert sorted(one.reason for one in said) == ["leak", "planned"]


def test_a_diary_has_a_gap(loaded: Loaded) -> None:
    rows = log("Hoarfrost", "urostomy")
    between = [(later.on - one.seen_on).days for one, later in pairwise(rows[-8:])]
    assert sorted(between) == [0, 0, 0, 0, 0, 0, 11]


# --- questions and days -----------------------------------------------------------------------
def test_own_questions_wait_are_seen_and_are_answered(loaded: Loaded) -> None:
    own = Referral.objects.filter(flag_key="")
    assert own.filter(seen_at=None, answered_at=None).count() == 1
    assert own.filter(seen_at__isnull=False, answered_at=None).count() == 1
    answered = own.get(answered_at__isnull=False)
    assert answered.answer_read_at is None
    assert answered.made_by.username == NURSE.username


def test_no_emergency_is_left_without_an_answer(loaded: Loaded) -> None:
    waiting = Referral.objects.unanswered()
    assert 3 <= waiting.count() <= 10
    assert not waiting.filter(urgency__in=[Urgency.EMERGENCY, *TODAY]).exists()


def test_next_visits_were_moved_at_the_desk_and_by_a_nurse(loaded: Loaded) -> None:
    moves = Move.objects.all()
    assert {move.by.username == DESK.username for move in moves} == {True, False}
    assert all(bool(move.words) != (move.by.username == DESK.username) for move in moves)
    assert all(move.became.weekday() < 5 for move in moves)
    assert all(move.at <= timezone.now() for move in moves)
    assert FollowUp.objects.open().filter(moves__isnull=False).count() == 2


def test_codes_were_chosen_at_two_visits(loaded: Loaded) -> None:
    chosen = ChosenCode.objects.values_list("assessment", "code")
    assert len({assessment for assessment, _ in chosen}) == 2
    assert {code for _, code in chosen} == {"L24.B3", "Z93.2"}


def test_the_history_names_who_did_it(loaded: Loaded) -> None:
    """The answers are the surgeon's, the day moved is the desk's, not the nurse's of the visit."""
    names = dict(User.objects.values_list("pk", "username"))
    answered = events(Referral).filter(pgh_label="update", answer_read_at=None).exclude(answer="")
    assert {names[one.pgh_context.metadata["user"]] for one in answered} == {SURGEON.username}
    moved = FollowUp.objects.get(moves__by__username=DESK.username)
    last = events(FollowUp).filter(pgh_obj_id=moved.pk).latest("pgh_id")
    assert names[last.pgh_context.metadata["user"]] == DESK.username


def events(model: type[Model]) -> Any:
    """The model's history."""
    related: Any = model._meta.get_field("events").related_model
    return related.objects
