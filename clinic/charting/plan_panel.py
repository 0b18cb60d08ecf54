"""The plan beside a draft, as the visit page shows it."""

from __future__ import annotations

from typing import Any

from clinic.charting.page import ChartPage
from clinic.plans.begun import is_begun
from clinic.plans.decision_forms import Decisions
from clinic.plans.models import Choice
from clinic.plans.names import name_of
from clinic.plans.plan_with_decisions import with_decisions
from clinic.plans.presenters.cards import cards_of_draft
from clinic.plans.presenters.panel import CAUTION, plan_context, step_line
from clinic.plans.presenters.plan_groups import groups_of


def panel_context(page: ChartPage) -> dict[str, Any]:
    """Template context of the plan beside a draft."""
    plan, decisions = page.live.plan, page.decisions
    if plan is None or decisions is None:
        return {"plan": None, "plan_errors": page.live.errors, "caution": CAUTION}
    if not is_begun(page.live, page.assessment):
        return {"plan": plan, "caution": CAUTION, "not_begun": True}
    undecided = decisions.undecided()
    fallen = _fallen(decisions)
    counted = with_decisions(decisions, signed=False).counted_plan
    return {
        **plan_context(counted),
        "steps": [step_line(step) for step in plan.steps if not fallen & {*step.belongs_to}],
        "quantities": [one for one in counted.quantities if one.supply_key not in fallen],
        "assessment": page.assessment,
        "waiting": len(page.errors),
        "groups": groups_of(plan, cards_of_draft(plan, decisions), signed=False),
        "undecided": len(undecided),
        "rest": any(form.decided for form in decisions),
        "again": [
            (form.decidable.key, name_of(form.decidable)) for form in decisions if form.asks_again
        ],
    }


def _fallen(decisions: Decisions) -> set[str]:
    """Keys of what the clinician has dropped, or put words of their own in the place of."""
    return {
        form.decidable.key
        for form in decisions
        if form.decided
        and form.stored
        and form.decidable.fixed is None
        and form.stored.choice != Choice.ACCEPTED
    }
