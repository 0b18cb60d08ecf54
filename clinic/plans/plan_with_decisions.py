"""A plan together with what the clinician made of it: what papers and records are about."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, time

from django.utils import timezone

from clinic.plans.children import planned_of
from clinic.plans.decidables import FOLLOW_UP, REFERRAL, own_recommendations
from clinic.plans.decided_change_day import WearDecided, wear_decided
from clinic.plans.decided_item import Decided
from clinic.plans.decision_forms import DecisionForm, Decisions
from clinic.plans.draft_plan import draft_plan
from clinic.plans.models import Choice
from clinic.plans.models.decision import OWN_WORDS
from clinic.plans.planned import Planned
from clinic.plans.proposed_day import planned_day
from clinic.visits.models import Assessment
from planning import FixedKind, Plan
from planning.inputs.age import AgeGroup
from planning.instructions.size_age import too_old
from planning.results.plan import Step, Urgency


@dataclass(frozen=True)
class DecidedPlan:
    """``signed`` is False for a draft's live plan. ``plan``: made with what was chosen instead of
    something it proposed; ``left_off``: what was chosen to be none."""

    assessment: Assessment
    plan: Plan
    signed: bool
    flags: tuple[Decided, ...]
    recommendations: tuple[Decided, ...]
    follow_up: Decided
    left_off: tuple[Decided, ...] = ()

    @property
    def for_adult(self) -> bool:
        """Made by the rules for adults; else it holds no supply, size, step or amount."""
        return self.plan.made_for is AgeGroup.ADULT

    @property
    def undecided(self) -> tuple[Decided, ...]:
        everything = (*self.flags, *self.recommendations, self.follow_up)
        return tuple(one for one in everything if one.choice is None)

    @property
    def open_items(self) -> tuple[Decided, ...]:
        """What must be decided before anything is printed. An emergency waits for nothing."""
        return () if self.plan.urgency is Urgency.EMERGENCY else self.undecided

    def accepted_by_default(self) -> DecidedPlan:
        """With whatever is undecided taken as the plan says it: for an emergency's sheet."""
        return replace(
            self,
            flags=tuple(one.accepted_by_default() for one in self.flags),
            recommendations=tuple(one.accepted_by_default() for one in self.recommendations),
            follow_up=self.follow_up.accepted_by_default(),
        )

    @property
    def next_visit(self) -> date | None:
        """The day as it is now: it may have been moved since the visit was signed. None where
        the clinician dropped it, or has not decided."""
        kept = getattr(self.assessment, "follow_up", None)
        return kept.due if kept else self.decided_day

    @property
    def next_visit_at(self) -> time | None:
        """The time on that day as it is now; None where none is agreed."""
        kept = getattr(self.assessment, "follow_up", None)
        return kept.at if kept else self.follow_up.at

    @property
    def counted_to(self) -> date | None:
        """The day up to which the plan counted supplies; None where it was changed."""
        return planned_day(self.plan, self.assessment) if self.follow_up.as_planned else None

    @property
    def decided_day(self) -> date | None:
        """The day decided at the visit itself."""
        if self.follow_up.choice == Choice.CHANGED:
            return date.fromisoformat(self.follow_up.changed_to)
        return self.counted_to

    def too_old_to_cut(self, today: date) -> int | None:
        """Days since the stoma was measured, where that is too long ago to cut to; else None."""
        surgery = self.assessment.stoma.surgery_date
        days = (today - timezone.localdate(self.assessment.visit.happened_at)).days
        return days if too_old(days, (today - surgery).days if surgery else None) else None

    @property
    def wear_decided(self) -> WearDecided | None:
        """How often to change, where the clinician decided differently from the plan."""
        return wear_decided(self.recommendations)

    @property
    def counted_plan(self) -> Plan:
        """The plan with its supplies counted for the change day that was decided."""
        decided = self.wear_decided
        return decided.counted(self.plan) if decided else self.plan

    def steps(self) -> tuple[Step, ...]:
        """The technique, without steps of anything dropped or changed."""
        standing = {one.key for one in self.recommendations if one.as_planned}
        return tuple(step for step in self.plan.steps if standing.issuperset(step.belongs_to))


def decided_plan(assessment: Assessment) -> DecidedPlan | None:
    """From the snapshot of a signed visit, else live; None while findings contradict themselves."""
    snapshot = getattr(assessment, "plan", None)
    decisions = list(assessment.decisions.all()) if snapshot else []
    planned = planned_of(snapshot, decisions) if snapshot else draft_plan(assessment).planned
    if planned is None:
        return None
    return with_decisions(Decisions(planned, assessment), signed=snapshot is not None)


def with_decisions(decisions: Decisions, *, signed: bool) -> DecidedPlan:
    """The plan with what is stored about each of its items."""
    planned: Planned = decisions.planned
    plan, items = planned.plan, {item.key for item in planned.plan.recommendations}
    decided = {_key(form): _decided(form) for form in decisions}
    return DecidedPlan(
        assessment=decisions.assessment,
        plan=plan,
        signed=signed,
        flags=tuple(decided[f"{REFERRAL}{flag.key}"] for flag in plan.red_flags),
        recommendations=tuple(decided[item.key] for item in own_recommendations(plan)),
        follow_up=decided[FOLLOW_UP],
        left_off=tuple(
            one
            for form in decisions
            if (one := decided[_key(form)]).chosen and one.key not in items
        ),
    )


def _key(form: DecisionForm) -> str:
    """Where the plan itself says it; of what was chosen, another key than the decision's."""
    item = form.decidable
    return item.source.key if item.fixed is not None else item.key


def _decided(form: DecisionForm) -> Decided:
    """What is kept counts as accepted while nothing else is decided about it."""
    stored = form.stored if form.decided else None
    undecided = Choice.ACCEPTED if form.stands else None
    item = form.decidable
    day = item.fixed.amount if item.fixed and item.fixed.kind is FixedKind.DAY else None
    return Decided(
        item=item.source,
        key=_key(form),
        text=item.text,
        choice=Choice(stored.choice) if stored else undecided,
        changed_to=stored.changed_to if stored else "",
        changed_words=stored.changed_words if stored else "",
        reason=stored.reason if stored else "",
        at=stored.at if stored else None,
        instead_of=item.proposal.text if item.proposal and stored else "",
        note=bool(stored and stored.chosen == OWN_WORDS),
        day=day if stored else None,
    )
