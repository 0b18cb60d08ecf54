"""The plan of the last signed visit in a few lines, and its outcome since."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from django.utils import timezone

from clinic.plans.children import is_held_back
from clinic.plans.course import course_at, plans_of
from clinic.plans.models import Choice
from clinic.visits.models import Assessment
from planning.course.flags import flags
from planning.course.outcome import outcome_of
from planning.inputs.findings import Findings
from planning.instructions.measure_anew import measure_anew, still_shrinks
from planning.results.plan import Urgency
from planning.withheld_from_children import MADE_BEFORE


@dataclass(frozen=True)
class LastPlan:
    """``outcome``: the verdict in one line with its figures. ``over_time``: what the visits show
    together, today's entries included; ``anew``: what is measured at each visit -> why.
    ``uneventful``: no one had to look at the stoma sooner than planned."""

    headline: str
    lines: tuple[str, ...]
    outcome: str
    over_time: tuple[str, ...] = ()
    anew: Mapping[str, str] = field(default_factory=dict)
    uneventful: bool = False


def last_plan(previous: Assessment | None, now: Assessment, findings: Findings) -> LastPlan | None:
    """What was accepted, what was done instead, and its outcome up to ``now``'s ``findings``.

    None where no plan was signed.
    """
    if previous is None:
        return None
    plans = plans_of(now.stoma_id, before=now.visit.happened_at)
    place = next((i for i, plan in enumerate(plans) if plan.assessment_id == previous.pk), None)
    if place is None:
        return None
    course = course_at(now, findings, plans)
    outcome = outcome_of(course, place)
    lines = tuple(
        decision.text if decision.choice == Choice.ACCEPTED else decision.changed_words
        for decision in plans[place].assessment.decisions.all()
        if decision.choice != Choice.DROPPED
    )
    flagged = flags(course)
    shown = tuple(f"{flag.text} {flag.figures}" for flag in flagged)
    anew = measure_anew(course.surgery, course.today, {flag.key for flag in flagged})
    plan = plans[place].plan
    if is_held_back(plans[place]):
        return LastPlan(MADE_BEFORE, (), outcome.text, shown, anew)
    uneventful = plan["urgency"] == Urgency.ROUTINE and not flagged
    return LastPlan(plan["headline"], lines, outcome.text, shown, anew, uneventful)


def anew_of(last: LastPlan | None, assessment: Assessment) -> dict[str, str]:
    """What is measured at this visit -> why; without a signed plan nothing shows a change."""
    if last is not None:
        return dict(last.anew)
    return measure_anew(assessment.stoma.surgery_date, _day(assessment))


def is_new(assessment: Assessment) -> bool:
    """Whether the stoma is known to be so new that it still shrinks."""
    return still_shrinks(assessment.stoma.surgery_date, _day(assessment)) is True


def _day(assessment: Assessment) -> date:
    return timezone.localdate(assessment.visit.happened_at)
