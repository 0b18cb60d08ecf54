"""The plan of the last signed visit in a few lines, beside the question whether it helped."""

from dataclasses import dataclass

from clinic.plans.models import Choice, PlanSnapshot
from clinic.visits.models import Assessment


@dataclass(frozen=True)
class LastPlan:
    headline: str
    lines: tuple[str, ...]


def last_plan(previous: Assessment | None) -> LastPlan | None:
    """What was accepted, and what was done instead; None where no plan was signed."""
    snapshot = PlanSnapshot.objects.filter(assessment=previous).first() if previous else None
    if snapshot is None or previous is None:
        return None
    lines = [
        decision.text if decision.choice == Choice.ACCEPTED else decision.changed_words
        for decision in previous.decisions.all()
        if decision.choice != Choice.DROPPED
    ]
    return LastPlan(snapshot.plan["headline"], tuple(lines))
