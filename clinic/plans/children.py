"""Under 16 no figure for adults is shown: whose plan is one of those, and what the page leaves out.

Whether somebody is under 16 is the planner's to say; the age is that on the day of the visit.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import cast

from django.forms import ChoiceField
from django.utils import timezone

from clinic.plans.course import aged
from clinic.plans.models import Decision, PlanSnapshot
from clinic.plans.planned import Planned, chosen_of
from clinic.visits.chart import Chart
from clinic.visits.choices import Bleeding
from planning import Plan
from planning.inputs.age import AgeGroup, age_group
from planning.inputs.findings import Findings
from planning.results.snapshot import findings_from_dict, plan_from_dict
from planning.withheld_from_children import held_back

UNSTOPPED = "Spurting, or not stopped by firm pressure"
NO_CONVEXITY = "Under 16 the paediatric stoma team decides on convexity."


def is_child(findings: Findings) -> bool:
    """Under 16 on the day they were found."""
    return age_group(findings.person.age_years) is AgeGroup.CHILD


def plan_of(snapshot: PlanSnapshot) -> Plan:
    """The plan as signed, with what was chosen; of somebody who was under 16, without what the
    rules for adults said."""
    return _held(plan_from_dict(snapshot.decided), snapshot)


def planned_of(snapshot: PlanSnapshot, decisions: Iterable[Decision]) -> Planned:
    """The same, beside what was proposed."""
    plan = plan_of(snapshot)
    if snapshot.with_choices is None:
        return Planned(plan, plan)
    proposed = _held(plan_from_dict(snapshot.plan), snapshot)
    return Planned(plan, proposed, tuple(filter(None, map(chosen_of, decisions))))


def _held(plan: Plan, snapshot: PlanSnapshot) -> Plan:
    findings = _found(snapshot)
    if plan.made_for is AgeGroup.ADULT and is_child(findings):
        return held_back(plan, findings)
    return plan


def is_held_back(snapshot: PlanSnapshot) -> bool:
    """Made by the rules for adults for somebody who was under 16."""
    made_for = snapshot.plan.get("made_for", AgeGroup.ADULT)
    return bool(made_for == AgeGroup.ADULT and is_child(_found(snapshot)))


def _found(snapshot: PlanSnapshot) -> Findings:
    visit = snapshot.assessment.visit
    findings = findings_from_dict(snapshot.findings)
    return aged(findings, visit.patient, timezone.localdate(visit.happened_at))


def without_adult_figures(chart: Chart) -> None:
    """Hints of the visit page that name a figure for adults, in words that name none."""
    bleeding = cast("ChoiceField", chart.parts["stoma"].fields["bleeding"])
    unstopped = Bleeding.SPURTING_OR_UNSTOPPED
    listed = cast("list[tuple[str, str]]", bleeding.choices)
    bleeding.choices = [(one, UNSTOPPED if one == unstopped else label) for one, label in listed]
    chart.whole.fields["convexity_assessed"].help_text = NO_CONVEXITY
