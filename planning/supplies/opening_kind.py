"""Whether a ready-cut opening may be offered."""

from __future__ import annotations

from planning.evidence.thresholds import (
    GAP_MOST,
    PRE_CUT_FROM,
    PRE_CUT_STABLE,
    ROUND_RATIO,
    SAME_SIZE,
)
from planning.facts.derive import Facts
from planning.geometry.outline import outline_of
from planning.geometry.precut import pre_cut_for
from planning.inputs.findings import Findings


def pre_cut_barred(facts: Facts) -> str | None:
    """Why no ready-cut opening serves, or None where one does.

    Round, at least 8 weeks after surgery, and two equal sizes at least 14 days apart.
    """
    if facts.outline is None:
        return "the size is not recorded"
    days = facts.findings.stoma.days_since_surgery
    if days is None or days < PRE_CUT_FROM.value:
        return "the stoma is not known to be older than 8 weeks"
    if facts.outline.ratio > ROUND_RATIO.value or facts.outline.traced:
        return "the stoma is not round"
    if facts.prolapsed or facts.findings.measurement.widest_mm is not None:
        return "the stoma is wider above than at its base"
    if not _stable(facts, facts.outline.length_mm, days):
        return "two equal sizes 14 days apart are not on record"
    size = pre_cut_for(facts.outline.length_mm)
    if size is None or size > facts.outline.width_mm + 2 * GAP_MOST.value:
        return "no usual ready-cut size lies within the gap"
    return None


def _stable(facts: Facts, length_mm: float, days: int) -> bool:
    return any(_same_size(visit, length_mm, days) for visit in facts.history.previous)


def _same_size(visit: Findings, length_mm: float, days: int) -> bool:
    """Long enough before ``days``, and of the same length."""
    then, before = visit.stoma.days_since_surgery, outline_of(visit.measurement)
    return (
        then is not None
        and before is not None
        and days - then >= PRE_CUT_STABLE.value
        and abs(before.length_mm - length_mm) <= SAME_SIZE.value
    )
