"""The plan of a draft, worked out afresh from what is stored."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from clinic.plans.bridge import findings_of, history_of, row_worn
from clinic.plans.bridge.charted import form_names
from clinic.plans.planned import Planned, with_choices
from clinic.visits.models import Assessment
from planning import Findings, History, InvalidFindings, Plan, recommend

#: Part of the planner's findings -> prefix of the form on the visit page.
FORM_OF_PART = {
    "measurement": "stoma",
    "system": "system",
    "output": "output",
    "abdomen": "abdomen",
    "stoma": "whole",
    "person": "whole",
}

#: The planner's field -> the form's, where the names differ.
FIELD_OF_PATH = {
    "measurement.junction": "stoma-junction",
    "measurement.prolapse": "stoma-prolapse",
    "abdomen.bulges": "abdomen-bulge",
    "abdomen.creases": "abdomen-creases",
    "skin": "skin-state",
    "wear": "wear",
    "system.erosion": "system-erosion_hours",
    "system.leak_count": "system-leaks",
    "system.leak": "system-leak_hours",
    "system.lifts": "system-lifts_hours",
    "system.load": "system-load_hours",
    "system.placed_towards": "system-placed_towards_hour",
    "system.accessories_not_asked": "system-more_accessories",
    "output.urine_signs_not_asked": "output-urine_looks",
    "output.blood_tests": "person-blood_tests",
    "system.begun": "system-begun_product",
    "measurement.loop": "stoma-working_hour",
    "person.child": "person-child_signs",
    "person.pregnant": "person-pregnant",
    "wounds": "skin-wounds",
    "other_stomas": "skin-other_stomas",
}


@dataclass(frozen=True)
class DraftPlan:
    """``planned`` is None while the findings contradict themselves; ``errors`` then says where."""

    findings: Findings
    history: History
    planned: Planned | None
    errors: dict[str, list[str]] = field(default_factory=dict)

    @property
    def plan(self) -> Plan | None:
        """With what the clinician chose instead."""
        return self.planned.plan if self.planned else None


def draft_plan(assessment: Assessment) -> DraftPlan:
    """Plan from the stored rows of ``assessment``, made round what was chosen instead of what it
    proposes; its parts should be fetched already."""
    findings = findings_of(assessment)
    history = history_of(assessment, findings)
    try:
        proposed = recommend(findings, history)
        planned = Planned(proposed, proposed, findings=findings, history=history)
        made = with_choices(planned, list(assessment.decisions.all()))
        return DraftPlan(findings, history, made)
    except InvalidFindings as invalid:
        errors: dict[str, list[str]] = {}
        for error in invalid.errors:
            errors.setdefault(_form_field(error.path, assessment), []).append(error.message)
        return DraftPlan(findings, history, None, errors)


def _form_field(path: str, assessment: Assessment) -> str:
    """``measurement.length_mm`` -> ``stoma-length_mm``; ``skin[1].outer_mm`` -> that row's."""
    row = re.fullmatch(r"(skin|wear)\[(\d+)\](?:\.(\w+))?", path)
    if row:
        part, place, name = row.groups()
        if part == "skin":
            finding = list(assessment.skin_findings.all())[int(place)]
            return f"finding-{finding.pk}-{name or 'kind'}"
        worn = row_worn(assessment, int(place))
        return f"wear-{worn.pk}-{name or 'kind'}" if worn else "wear"
    if number := form_names().get(re.sub(r"\[\d+\]", "[]", path)):
        return number
    for known, named in FIELD_OF_PATH.items():
        if path.split("[")[0].startswith(known):
            return named
    part, _, name = path.partition(".")
    return f"{FORM_OF_PART.get(part, 'whole')}-{name}"
