"""The visit page of one assessment: the chart, the plan beside it, and the decisions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from django.http import HttpRequest, QueryDict

from clinic.accounts.models import User
from clinic.plans.actions.decide import accept_the_rest, save_decisions
from clinic.plans.decisions import Decisions
from clinic.plans.live import LivePlan, live_plan
from clinic.visits.actions.save import save_chart
from clinic.visits.chart import Chart
from clinic.visits.history import previous_assessment, with_parts
from clinic.visits.models import Assessment


@dataclass
class ChartPage:
    """Everything the template and the autosave reply need."""

    assessment: Assessment
    chart: Chart
    live: LivePlan
    decisions: Decisions | None
    previous: Assessment | None
    errors: dict[str, list[str]] = field(default_factory=dict)
    saved: bool = False

    @property
    def all_errors(self) -> dict[str, list[str]]:
        """The forms' own errors, the planner's contradictions, the unfinished decisions."""
        found = dict(self.errors)
        for extra in (self.live.errors, self.decisions.errors() if self.decisions else {}):
            for name, messages in extra.items():
                found.setdefault(name, []).extend(m for m in messages if m not in found[name])
        return found

    @property
    def error_list(self) -> list[dict[str, Any]]:
        """For the list on top: where it is, its label, what is wrong."""
        labels = self.chart.labels()
        if self.decisions:
            for form in self.decisions:
                labels |= {form.add_prefix(n): str(f.label) for n, f in form.fields.items()}
        return [
            {"field": name, "label": labels.get(name, ""), "message": message}
            for name, messages in self.all_errors.items()
            for message in messages
        ]


def open_page(
    assessment: Assessment, *, spare_rows: int = 0, spare: Mapping[str, int] | None = None
) -> ChartPage:
    """The page as stored, with what is still pending shown as it was typed."""
    previous = previous_assessment(assessment)
    chart = Chart(assessment, previous=previous, spare_rows=spare_rows, spare=spare)
    chart.check()
    live = live_plan(assessment)
    decisions = Decisions(live.plan, assessment) if live.plan else None
    page = ChartPage(assessment, chart, live, decisions, previous, errors=chart.errors())
    chart.show(live.errors)
    return page


def save_page(
    assessment: Assessment,
    *,
    data: QueryDict,
    version: int,
    by: User,
    accept_rest: bool = False,
    request: HttpRequest | None = None,
) -> ChartPage:
    """Save chart and decisions; the plan that comes back is worked out from what is stored now.

    Raises ``ConflictError`` and ``NotAllowedNow`` as the chart's action does.
    """
    previous = previous_assessment(assessment)
    saved = save_chart(
        assessment=assessment,
        data=data,
        version=version,
        by=by,
        previous=previous,
        request=request,
    )
    stored = with_parts().get(pk=assessment.pk)
    live = live_plan(stored)
    decisions = None
    if live.plan is not None:
        decisions, _ = save_decisions(
            plan=live.plan, assessment=stored, data=data, by=by, request=request
        )
        if accept_rest:
            accept_the_rest(plan=live.plan, assessment=stored, by=by, request=request)
            stored = with_parts().get(pk=assessment.pk)
            decisions = Decisions(live.plan, stored)
    return ChartPage(stored, saved.chart, live, decisions, previous, saved.errors, saved=True)
