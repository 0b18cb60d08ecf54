"""The visit page of one assessment: the chart, the plan beside it, and the decisions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from django.http import HttpRequest, QueryDict
from django.utils import timezone

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.charting.one_press import Confirmed, store
from clinic.plans.actions.decide import Signer, accept_seen, save_decisions
from clinic.plans.children import is_child, without_adult_figures
from clinic.plans.decidables import Decidable
from clinic.plans.decision_forms import DecisionForm, Decisions
from clinic.plans.draft_plan import DraftPlan, draft_plan
from clinic.plans.presenters.plan_changed import plan_changed
from clinic.referrals.actions.alarm import raise_alarm
from clinic.visits.actions.save import Turn, save_chart
from clinic.visits.chart import Chart
from clinic.visits.models import Assessment, Visit
from clinic.visits.queries import previous_assessment, with_parts


@dataclass
class ChartPage:
    """Everything the template and the answer to an autosave need."""

    assessment: Assessment
    chart: Chart
    live: DraftPlan
    decisions: Decisions | None
    previous: Assessment | None
    errors: dict[str, list[str]] = field(default_factory=dict)
    #: What keeps the visit from being signed, though nothing typed is wrong.
    to_finish: dict[str, list[str]] = field(default_factory=dict)
    saved: bool = False
    #: Kept by the plan in words that were not on the page that was sent.
    unseen: list[Decidable] = field(default_factory=list)
    #: What the plan says now that was not on the page that was sent, in one line; "" for nothing.
    plan_changed: str = ""

    @property
    def all_errors(self) -> dict[str, list[str]]:
        """The forms' own errors, the planner's contradictions, the unfinished decisions."""
        found = dict(self.errors)
        for extra in (self.live.errors, self.decisions.errors() if self.decisions else {}):
            for name, messages in extra.items():
                found.setdefault(name, []).extend(m for m in messages if m not in found[name])
        return found

    def mentions(self, field: str) -> bool:
        """Whether something is said of this field, or of one in this form, already."""
        return any(name == field or name.startswith(f"{field}-") for name in self.all_errors)

    def say(self, field: str, message: str) -> None:
        """``message`` beside this field, and in the list on top; the plan does not wait for it."""
        self.to_finish.setdefault(field, []).append(message)
        self.chart.show({field: [message]})

    @property
    def error_list(self) -> list[dict[str, Any]]:
        """For the list on top: where it is, its label, what is wrong."""
        labels = self.chart.labels()
        if self.decisions:
            for form in self.decisions:
                labels |= {form.add_prefix(n): str(f.label) for n, f in form.fields.items()}
        return [
            {"field": name, "label": labels.get(name, ""), "message": message}
            for name, messages in [*self.all_errors.items(), *self.to_finish.items()]
            for message in messages
        ]


def open_page(assessment: Assessment, *, spare: Mapping[str, int] | None = None) -> ChartPage:
    """The page as stored, with what is still pending shown as it was typed."""
    previous = previous_assessment(assessment)
    chart = Chart(assessment, previous=previous, spare=spare)
    chart.check()
    live = draft_plan(assessment)
    if is_child(live.findings):
        without_adult_figures(chart)
    decisions = Decisions(live.planned, assessment) if live.planned else None
    page = ChartPage(assessment, chart, live, decisions, previous, errors=chart.errors())
    chart.show(live.errors)
    return page


def save_page(
    assessment: Assessment,
    *,
    data: QueryDict,
    turn: Turn,
    by: User,
    accept_rest: bool = False,
    confirmed: list[Confirmed] | None = None,
    request: HttpRequest | None = None,
) -> ChartPage:
    """Save chart, decisions and what was ``confirmed`` against the last visit in one step; the plan
    that comes back is worked out from what is stored now, and may say other words than those that
    were decided on.

    Raises ``ConflictError`` and ``NotAllowedNow`` as the chart's action does.
    """
    previous = previous_assessment(assessment)
    lives: list[DraftPlan] = []
    reread: list[Assessment] = []

    def reread_with(visit: Visit) -> Assessment:
        """What is stored, at the visit as it was typed: that is stored last, with its version."""
        stored = with_parts().with_rows("decisions").get(pk=assessment.pk)
        visit.patient, visit.clinician = stored.visit.patient, stored.visit.clinician
        stored.visit = visit
        reread.append(stored)
        return stored

    def decide(locked: Assessment) -> bool:
        """Decide on the plan of what has just been stored, and keep that plan for the answer."""
        noted = store(confirmed or [], locked, by)
        stored = reread_with(locked.visit)
        live = draft_plan(stored)
        lives.append(live)
        if live.planned is None:  # findings contradict one another: what was known before is kept
            return noted
        plan = live.planned.plan
        raise_alarm(stored, urgency=plan.urgency.value, headline=plan.headline)
        signer = Signer(by, timezone.now())
        changed = save_decisions(plan=live.planned, assessment=stored, data=data, signer=signer)
        if changed:
            # Something may have been chosen: the plan is made again round it, and only what it
            # says in the same words as before is accepted with the rest.
            stored = reread_with(locked.visit)
            lives.append(draft_plan(stored))
        planned = lives[-1].planned
        if not accept_rest or planned is None:
            return changed or noted
        accepted = accept_seen(plan=planned, assessment=stored, data=data, signer=signer)
        if accepted:
            reread_with(locked.visit)
            detail = f"as proposed: {accepted}"
            record(
                request_or_actor=request or by,
                action="accepted plan",
                subject=stored.visit,
                detail=detail,
            )
        return changed or noted or accepted > 0

    saved = save_chart(
        assessment=assessment,
        data=data,
        turn=turn,
        by=by,
        previous=previous,
        also=decision_forms,
        then=decide,
        request=request,
    )
    # What was read for the plan is what is stored: the chart's parts were stored before it.
    stored = reread[-1] if reread else with_parts().get(pk=assessment.pk)
    live = lives[-1] if lives else draft_plan(stored)
    decisions = Decisions(live.planned, stored) if live.planned else None
    posted = Decisions(live.planned, stored, data=data) if live.planned else ()
    unseen = [form.decidable for form in posted if form.stands and not form.seen]
    return ChartPage(
        stored,
        saved.chart,
        live,
        decisions,
        previous,
        saved.errors,
        saved=True,
        unseen=unseen,
        plan_changed=plan_changed(data, decisions) if decisions else "",
    )


def decision_forms(assessment: Assessment) -> list[DecisionForm]:
    """The decision forms that the page of ``assessment`` holds now."""
    planned = draft_plan(assessment).planned
    return list(Decisions(planned, assessment)) if planned else []
