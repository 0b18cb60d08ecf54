"""The findings a plan was signed with, as they were meant then."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.db.models import TextChoices

from clinic.plans.models import PlanSnapshot
from clinic.visits.choices import OtherSupply, UrineLook
from planning.inputs.findings import Findings
from planning.results.snapshot import findings_from_dict


def stored_findings(snapshot: PlanSnapshot) -> Findings:
    """What the visit found. A plan signed while a list was still asked whole does not say whether
    its later words were asked: they count as asked only where one of them was ticked."""
    data = dict(snapshot.findings)
    for part, name, later in (
        ("system", "accessories", OtherSupply),
        ("output", "urine_signs", UrineLook),
    ):
        if data.get(part) is not None:
            data[part] = _with_not_asked(data[part], name, later)
    return findings_from_dict(data)


def _with_not_asked(
    part: Mapping[str, Any], name: str, later: type[TextChoices]
) -> Mapping[str, Any]:
    key, ticked = f"{name}_not_asked", part.get(name)
    if key in part or ticked is None or set(later.values) & set(ticked):
        return part
    return {**part, key: list(later.values)}
