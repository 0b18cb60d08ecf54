"""Adhesive injury: skin stripped, torn or blistered on removal."""

from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.evidence.thresholds import NEAR_EDGE, WEAR_OFTEN
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Accessory, SkinKind
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    seen = facts.find(SkinKind.STRIPPING, SkinKind.BLISTERS)
    if not seen:
        return None
    path = seen[0].path
    evidence.speaks_for(
        facts.find(SkinKind.STRIPPING),
        STRONG,
        "Stripped or torn skin where adhesive was lifted.",
        "leblanc2019/look",
        at=path,
    )
    evidence.speaks_for(
        facts.find(SkinKind.BLISTERS),
        HINT,
        "Blisters seen after removal.",
        "leblanc2019/look",
        at=path,
    )
    evidence.speaks_for(
        facts.wears(Accessory.ADHESIVE_REMOVER) is False,
        HINT,
        "No adhesive remover is used.",
        MEMORY,
        at="system.accessories",
    )
    mean = None if facts.wear is None else facts.wear.mean_days
    evidence.speaks_for(
        mean is not None and mean <= WEAR_OFTEN.value,
        HINT,
        "The barrier is changed very often.",
        MEMORY,
        at="wear",
    )
    ends = [s.finding.outer_mm for s in seen if s.finding.outer_mm is not None]
    evidence.speaks_against(
        ends and max(ends) <= NEAR_EDGE.value,
        CLEAR,
        "The damage lies only at the edge of the stoma.",
        MEMORY,
        at=path,
    )
    return facts.hours_of(SkinKind.STRIPPING, SkinKind.BLISTERS)


RULE = CauseRule(
    key="stripping",
    of=CauseOf.SKIN,
    title="Adhesive injury (stripping)",
    weigh=_weigh,
    tell="Watch one removal: how fast, with what support, with or without remover?",
)
