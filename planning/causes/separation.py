"""Mucocutaneous separation."""

from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import DESIGN, MEMORY
from planning.evidence.thresholds import EARLY_DAYS, SEPARATES_LOW
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Construction
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    junction = facts.findings.measurement.junction
    if not junction:
        return None
    evidence.speaks_for(
        True, STRONG, "A gap between bowel and skin was seen.", MEMORY, at="measurement.junction"
    )
    days = facts.findings.stoma.days_since_surgery
    evidence.speaks_for(
        days is not None and days <= EARLY_DAYS.value,
        CLEAR,
        "The stoma is new.",
        "liu2024/weeks",
        DESIGN,
        at="stoma.days_since_surgery",
    )
    height = facts.findings.measurement.protrusion_mm
    evidence.speaks_for(
        height is not None and height < SEPARATES_LOW.value,
        HINT,
        "The stoma is lower than 10 mm (odds ratio 1.96).",
        "ayik2020/low",
        at="measurement.protrusion_mm",
    )
    evidence.speaks_for(
        facts.findings.stoma.construction is Construction.END,
        HINT,
        "It is an end stoma (odds ratio 2.17).",
        "ayik2020/end",
        at="stoma.construction",
    )
    return ClockHours.union(s.hours for s in junction)


RULE = CauseRule(
    key="separation",
    of=CauseOf.SKIN,
    title="Mucocutaneous separation",
    weigh=_weigh,
    tell="Probe the depth gently with a moist swab and see whether the base is visible.",
)
