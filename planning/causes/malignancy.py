"""Suspicion of malignant growth at the junction."""

from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.evidence.thresholds import CANCER_AFTER
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Bleeding, SkinKind
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    lumps = facts.find(SkinKind.HARD_LUMP)
    growing = tuple(
        s for s in facts.find(SkinKind.GRANULOMA, SkinKind.WARTY) if s.finding.enlarging
    )
    seen = lumps + growing
    if not seen:
        return None
    path = seen[0].path
    evidence.speaks_for(lumps, STRONG, "There is a hard lump.", MEMORY, at=path)
    evidence.speaks_for(
        any(s.finding.enlarging for s in seen), CLEAR, "It is growing.", MEMORY, at=path
    )
    bleeding = facts.findings.measurement.bleeding
    evidence.speaks_for(
        bleeding not in (None, Bleeding.NONE), HINT, "It bleeds.", MEMORY, at="measurement.bleeding"
    )
    days = facts.findings.stoma.days_since_surgery
    evidence.speaks_for(
        days is not None and days >= CANCER_AFTER.value,
        HINT,
        "The stoma is old: reported cases came 2 to 48 years after surgery.",
        "malignancy2010/late",
        "vickers2025/late",
        at="stoma.days_since_surgery",
    )
    return ClockHours.union(s.finding.hours for s in seen)


RULE = CauseRule(
    key="malignancy",
    of=CauseOf.SKIN,
    title="New growth: malignancy must be excluded",
    weigh=_weigh,
    tell="Only a biopsy by the surgeon can tell.",
)
