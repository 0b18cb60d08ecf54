"""Whether there is anything yet to decide on: before that no decision is asked for."""

from __future__ import annotations

from clinic.plans.draft_plan import DraftPlan
from clinic.visits.models import Assessment
from planning import Findings
from planning.inputs.findings import Abdomen, Measurement, Output, PouchingSystem


def is_begun(live: DraftPlan, assessment: Assessment) -> bool:
    """Something was charted at this visit, or noted; or there is a danger, or a decision."""
    if live.plan is not None and live.plan.red_flags:
        return True
    noted = assessment.visit.note.strip() or assessment.decisions.all()
    return bool(noted) or _anything_found(live.findings) or bool(assessment.wear_rows.all())


def _anything_found(findings: Findings) -> bool:
    return (
        findings.system not in (None, PouchingSystem())
        or findings.skin is not None
        or findings.measurement != Measurement()
        or findings.output != Output()
        or findings.abdomen != Abdomen()
        or findings.wounds is not None
        or findings.other_stomas is not None
    )
