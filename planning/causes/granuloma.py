"""Granuloma at the mucocutaneous junction."""

from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.evidence.thresholds import GAP_RUBS
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import SkinKind, StomaKind
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    seen = facts.find(SkinKind.GRANULOMA)
    if not seen:
        return None
    path = seen[0].path
    evidence.speaks_for(True, CLEAR, "Red, moist bumps that bleed on touch.", MEMORY, at=path)
    evidence.speaks_for(
        facts.kind is StomaKind.COLOSTOMY,
        HINT,
        "It is most frequent with a colostomy.",
        "persson2010/granuloma",
        at="stoma.kind",
    )
    evidence.speaks_for(
        facts.worn_gap is not None and facts.worn_gap.least_mm < GAP_RUBS.value,
        CLEAR,
        "The opening in use rubs the stoma.",
        MEMORY,
        at="system.opening_length_mm",
    )
    evidence.speaks_against(
        facts.find(SkinKind.HARD_LUMP) or any(s.finding.enlarging for s in seen),
        STRONG,
        "Hard or growing tissue needs a biopsy.",
        MEMORY,
    )
    return facts.hours_of(SkinKind.GRANULOMA)


RULE = CauseRule(
    key="granuloma",
    of=CauseOf.SKIN,
    title="Granuloma",
    weigh=_weigh,
    tell="Feel it: soft and rubbed, or hard and growing? Look for a stitch left behind.",
)
