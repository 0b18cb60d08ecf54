"""Thick, warty collar from skin bathed in effluent for long (pseudoverrucous lesions)."""

from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.evidence.thresholds import GAP_MOST
from planning.facts.derive import Facts
from planning.inputs.clock import LOWEST_HOURS, ClockHours
from planning.inputs.findings import SkinKind, StomaKind, UrineSign
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    seen = facts.find(SkinKind.WARTY)
    if not seen:
        return None
    path = seen[0].path
    hours = facts.hours_of(SkinKind.WARTY)
    evidence.speaks_for(True, STRONG, "Raised, thick, warty skin round the stoma.", MEMORY, at=path)
    evidence.speaks_for(
        facts.kind is StomaKind.UROSTOMY,
        CLEAR,
        "It is mostly seen late, with a urinary stoma.",
        "brogna2021/urine_late",
        at="stoma.kind",
    )
    evidence.speaks_for(
        UrineSign.CRYSTALS in (facts.findings.output.urine_signs or ()),
        CLEAR,
        "Gritty crystals: the urine is alkaline.",
        "urostomy2014/crystals",
        at="output.urine_signs",
    )
    evidence.speaks_for(
        facts.worn_gap is not None and facts.worn_gap.most_mm > GAP_MOST.value,
        CLEAR,
        "The opening in use is too large.",
        MEMORY,
        at="system.opening_length_mm",
    )
    evidence.speaks_for(hours & LOWEST_HOURS, HINT, "It lies in the lower half.", MEMORY, at=path)
    evidence.speaks_against(
        facts.find(SkinKind.HARD_LUMP) or any(s.finding.enlarging for s in seen),
        STRONG,
        "A hard or fast-growing lump needs a biopsy.",
        MEMORY,
    )
    return hours


RULE = CauseRule(
    key="warty",
    of=CauseOf.SKIN,
    title="Thick warty skin from long wetness",
    weigh=_weigh,
    tell="Measure the opening against the stoma and test the acidity of fresh urine.",
)
