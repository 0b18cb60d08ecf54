"""Leak or injury from an opening that does not fit: too large, or smaller than the stoma."""

from planning.causes.rule import ANYWHERE, CLEAR, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY, PRACTICE
from planning.evidence.thresholds import GAP_MOST
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Accessory
from planning.results.plan import CauseOf

_AT = "system.opening_length_mm"


def _too_large(facts: Facts, evidence: Evidence) -> ClockHours | None:
    gap = facts.worn_gap
    if gap is None or gap.most_mm <= GAP_MOST.value or not facts.troubled:
        return None
    evidence.speaks_for(
        True,
        STRONG,
        f"The opening leaves {gap.most_mm:.1f} mm of skin bare, more than 3.2 mm a side.",
        "green2018/most",
        "enlarging2019/most",
        at=_AT,
    )
    evidence.speaks_against(
        facts.wears(Accessory.RING),
        CLEAR,
        "A ring covers the bare skin.",
        PRACTICE,
        at="system.accessories",
    )
    return ANYWHERE


def _cuts(facts: Facts, evidence: Evidence) -> ClockHours | None:
    gap = facts.worn_gap
    if gap is None or gap.least_mm >= 0:
        return None
    evidence.speaks_for(
        True,
        STRONG,
        f"The opening in use is {-gap.least_mm:.1f} mm a side smaller than the stoma: "
        "its edge cuts or lifts.",
        PRACTICE,
        at=_AT,
    )
    evidence.speaks_for(
        facts.findings.measurement.deep_cut,
        CLEAR,
        "The stoma is cut.",
        MEMORY,
        at="measurement.deep_cut",
    )
    return ANYWHERE


TOO_LARGE = CauseRule(
    key="opening_too_large",
    of=CauseOf.LEAK,
    title="Opening too large",
    weigh=_too_large,
    tell="Lay the used barrier over the stoma: how much skin shows inside its opening?",
)
CUTS = CauseRule(
    key="opening_too_small",
    of=CauseOf.LEAK,
    title="Opening smaller than the stoma",
    weigh=_cuts,
    tell="Lay the used barrier over the stoma: does its edge touch the bowel?",
)
