"""Which steps of a change are new or different today."""

from __future__ import annotations

from typing import NamedTuple

from clinic.plans.children import plan_of
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.visits.models import Assessment
from clinic.visits.queries import signed_before
from planning.results.plan import Change, Step


class StepNews(NamedTuple):
    """``change``: "start", "change" or "". ``known``: done as before, and in the plan then."""

    change: str
    known: bool


def news_of_steps(decided: DecidedPlan) -> dict[str, StepNews]:
    """By key of each step.

    A step is news with the thing it is done with. One that is done with no thing is news where
    the plan of the visit before had no such step, beside a thing that is: what stays the same
    brings no new step with it.
    """
    before = _before(decided.assessment)
    steps = decided.steps()
    with_things = {step.key: _with_thing(step, _changes(decided)) for step in steps}
    anything = any(with_things.values())
    found = {}
    for step in steps:
        fresh = anything and not step.belongs_to and before is not None and step.key not in before
        change = Change.START.value if fresh else with_things[step.key]
        found[step.key] = StepNews(change, known=not change and step.key in (before or ()))
    return found


def _changes(decided: DecidedPlan) -> dict[str, Change]:
    """Of what is used, by key. A system that is left alone has none: the person goes on as now."""
    if decided.plan.leave_alone:
        return {}
    return {item.key: item.change for item in decided.plan.recommendations}


def _with_thing(step: Step, changes: dict[str, Change]) -> str:
    found = {changes[key] for key in step.belongs_to if key in changes}
    return next((one.value for one in (Change.START, Change.CHANGE) if one in found), "")


def _before(about: Assessment) -> frozenset[str] | None:
    """Keys of the steps at the signed visit before; None where there was none with steps."""
    last = signed_before(about, Assessment.objects.select_related("plan"))
    snapshot = getattr(last, "plan", None) if last else None
    if snapshot is None:
        return None
    keys = frozenset(step.key for step in plan_of(snapshot).steps if step.patient_text)
    return keys or None
