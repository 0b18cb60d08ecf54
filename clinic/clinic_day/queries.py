"""What the start page asks of visits. Each is one query."""

from __future__ import annotations

from collections.abc import Iterable

from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment


def begun(stomas: Iterable[int]) -> set[int]:
    """Those of ``stomas`` whose visit is begun and not signed yet."""
    drafts = Assessment.objects.filter(stoma_id__in=set(stomas), visit__state=VisitState.DRAFT)
    return set(drafts.values_list("stoma_id", flat=True))
