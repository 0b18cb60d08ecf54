"""Leak because much or liquid output dissolves the barrier."""

from planning.causes.rule import ANYWHERE, CLEAR, HINT, CauseRule, Evidence
from planning.evidence.sources import PRACTICE
from planning.evidence.thresholds import OUTPUT_CALL
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import StomaKind
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    if not facts.liquid or facts.kind is StomaKind.UROSTOMY or not facts.troubled:
        return None
    evidence.speaks_for(
        True,
        HINT,
        "Liquid output dissolves barriers and pastes faster.",
        PRACTICE,
        at="output.consistency",
    )
    volume = facts.findings.output.volume_ml_24h
    evidence.speaks_for(
        volume is not None and volume >= OUTPUT_CALL.value,
        CLEAR,
        f"Output is {volume or 0:g} mL in 24 hours.",
        "gateshead/call_1000",
        at="output.volume_ml_24h",
    )
    return ANYWHERE


RULE = CauseRule(
    key="liquid_output",
    of=CauseOf.LEAK,
    title="Large or liquid output",
    weigh=_weigh,
    tell="Measure the output for 24 hours.",
)
