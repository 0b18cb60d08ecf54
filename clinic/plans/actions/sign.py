"""Sign a visit: from now on nothing in it changes."""

from dataclasses import dataclass
from datetime import date, datetime

from django.db import transaction
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.clinic_details.closed_days import closed_sentence
from clinic.follow_up.models import FollowUp
from clinic.plans.actions.decide import Signer, accept_kept
from clinic.plans.decidables import FOLLOW_UP, REFERRAL, Decidable
from clinic.plans.decision_forms import Decisions
from clinic.plans.draft_plan import DraftPlan, draft_plan
from clinic.plans.models import Choice, PlanSnapshot
from clinic.plans.names import changed_since
from clinic.plans.photo_or_ruler import disputed
from clinic.plans.proposed_day import ProposedDay, proposed_day
from clinic.referrals.actions.alarm import end_alarm
from clinic.referrals.models import Referral
from clinic.referrals.presenters.question import question_of
from clinic.visits.choices import VisitState
from clinic.visits.locking import locked_draft
from clinic.visits.models import Assessment, Visit
from clinic.visits.queries import with_parts
from planning import Findings, Plan
from planning.inputs.findings import Measurement, PouchingSystem
from planning.results.snapshot import findings_to_dict, history_to_dict, plan_to_dict

NOTHING_SEEN = (
    "Nothing is recorded of the barrier, the stoma or the skin. Record what you saw, or write in "
    "the note why nothing was looked at."
)


#: As many as the reason of a next visit holds.
REASON_LETTERS = 300


@dataclass(frozen=True)
class Problem:
    """One thing that keeps a visit from being signed; ``field`` is where on the page."""

    assessment: Assessment
    message: str
    field: str = ""


class NotReadyError(Exception):
    """The visit cannot be signed yet; nothing was written."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = problems
        super().__init__("This visit cannot be signed yet.")


@transaction.atomic
def sign_visit(
    *, visit: Visit, by: User, at: datetime, request: HttpRequest | None = None
) -> Visit:
    """Store each plan as it is, with the rule-set version; make referrals and follow-up.

    What is kept as it is worn is accepted together by ``by``.
    Raises ``NotReadyError`` with everything still open, ``NotAllowedNow`` if already signed.
    """
    visit = locked_draft(visit)
    assessments = list(with_parts().filter(visit=visit))
    plans = [(assessment, draft_plan(assessment)) for assessment in assessments]
    problems = [p for assessment, live in plans for p in _problems(assessment, live)]
    if problems:
        raise NotReadyError(problems)
    kept = 0
    for assessment, live in plans:
        kept += _store_plan(assessment, live, by, at)
        end_alarm(assessment)
        # What was half written about something the plan no longer says.
        assessment.pending.all().delete()
    visit.state, visit.signed_at, visit.signed_by, visit.saved_by = VisitState.SIGNED, at, by, by
    visit.save()
    together = f"accepted together: {kept} kept" if kept else ""
    record(request_or_actor=request or by, action="signed", subject=visit, detail=together)
    return visit


def _problems(assessment: Assessment, live: DraftPlan) -> list[Problem]:
    found = [
        Problem(assessment, "An entry here needs to be corrected or finished.", entry.prefix)
        for entry in assessment.pending.all()
        # An unfinished decision is named below, by what it is about.
        if not entry.prefix.startswith("decision-")
    ]
    if not assessment.visit.note.strip() and _nothing_seen(live.findings):
        found.append(Problem(assessment, NOTHING_SEEN, "visit-note"))
    found += [Problem(assessment, one.question, "stoma-length_mm") for one in disputed(assessment)]
    if live.plan is None:
        return found + [
            Problem(assessment, message, name)
            for name, messages in live.errors.items()
            for message in messages
        ]
    decisions = Decisions(live.planned or live.plan, assessment)
    undecided = [
        Problem(assessment, _ask(decisions, item), f"decision-{item.key}")
        for item in decisions.undecided()
    ]
    return found + undecided + _closed_since(assessment, decisions)


def _closed_since(assessment: Assessment, decisions: Decisions) -> list[Problem]:
    """The nurse's own day, where the clinic was closed on it after it was chosen."""
    form = decisions.by_key[FOLLOW_UP]
    if not (form.decided and form.stored and form.stored.choice == Choice.CHANGED):
        return []
    if closed := closed_sentence(date.fromisoformat(form.stored.changed_to)):
        words = f"Next visit on {closed} Choose another day."
        return [Problem(assessment, words, f"decision-{FOLLOW_UP}-changed_to")]
    return []


def _ask(decisions: Decisions, item: Decidable) -> str:
    """What to decide on; by name where it has changed since it was decided."""
    again = decisions.by_key[item.key].asks_again
    return f"{changed_since(item)} {item.text}" if again else f"Decide: {item.text}"


def _nothing_seen(findings: Findings) -> bool:
    """Visit with no findings."""
    unworn = findings.system in (None, PouchingSystem())
    return unworn and findings.skin is None and findings.measurement == Measurement()


def _store_plan(assessment: Assessment, live: DraftPlan, by: User, at: datetime) -> int:
    """How many things were kept and accepted together."""
    planned = live.planned
    assert planned is not None  # noqa: S101 - _problems has refused the visit otherwise
    plan = planned.plan
    next_day = proposed_day(plan, assessment)
    PlanSnapshot.objects.create(
        assessment=assessment,
        rule_set=plan.rule_set,
        findings=findings_to_dict(live.findings),
        history=history_to_dict(live.history),
        plan=plan_to_dict(planned.proposed),
        with_choices=plan_to_dict(plan) if planned.chosen else None,
        made_at=at,
        planned_day=next_day.day,
        planned_day_moved=next_day.moved,
    )
    decisions = Decisions(planned, assessment)
    _refer(assessment, plan, decisions, by, at)
    _follow_up(assessment, plan, decisions, next_day)
    return accept_kept(decisions, Signer(by, at))


def _refer(
    assessment: Assessment, plan: Plan, decisions: Decisions, by: User, at: datetime
) -> None:
    for flag in plan.red_flags:
        decision = decisions.by_key[f"{REFERRAL}{flag.key}"].stored
        if decision is None or decision.choice == Choice.DROPPED:
            continue
        Referral.objects.create(
            assessment=assessment,
            flag_key=flag.key,
            to=flag.refer_to,
            urgency=flag.urgency.value,
            question=question_of(
                flag,
                assessment,
                instead=decision.changed_to if decision.choice == Choice.CHANGED else "",
            ),
            made_at=at,
            made_by=by,
        )


def _why(plan: Plan, moved: str) -> str:
    """Why then, in the planner's words: what it rests on says more than the day does. Whether
    the day was ``moved`` is said whole, however long the rest."""
    why = " ".join(reason.text for reason in plan.follow_up.because) or plan.follow_up.text
    room = REASON_LETTERS - len(moved) - 1
    return f"{why[:room]} {moved}" if moved else why[:REASON_LETTERS]


def _follow_up(
    assessment: Assessment, plan: Plan, decisions: Decisions, next_day: ProposedDay
) -> None:
    followed = FollowUp.objects.filter(stoma=assessment.stoma)
    at = assessment.visit.happened_at
    if followed.filter(set_by__visit__happened_at__gt=at).exists():
        return  # charted late: a newer visit has set the next one already
    followed.open().update(done_by=assessment.visit)
    decision = decisions.by_key[FOLLOW_UP].stored
    if decision is None or decision.choice == Choice.DROPPED:
        return
    changed = decision.choice == Choice.CHANGED
    FollowUp.objects.create(
        stoma=assessment.stoma,
        set_by=assessment,
        due=date.fromisoformat(decision.changed_to) if changed else next_day.day,
        at=decision.at,
        urgency=plan.urgency.value,
        reason=decision.reason[:REASON_LETTERS] if changed else _why(plan, next_day.moved),
    )
