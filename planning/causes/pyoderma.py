"""Pyoderma gangrenosum. Absence of bowel disease excludes nothing (Hughes 2000)."""

from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.evidence.thresholds import PYODERMA_PAIN
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Condition, SkinKind
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    seen = facts.find(SkinKind.UNDERMINED_ULCER, SkinKind.ULCER)
    if not seen:
        return None
    path = seen[0].path
    evidence.speaks_for(
        facts.find(SkinKind.UNDERMINED_ULCER),
        STRONG,
        "The ulcer's edge is violet and undermined.",
        MEMORY,
        at=path,
    )
    evidence.speaks_for(
        any(s.finding.enlarging for s in seen),
        CLEAR,
        "It deepens within hours to days.",
        "cairns1994/fast",
        at=path,
    )
    pain = facts.findings.output.pain_0_10
    evidence.speaks_for(
        pain is not None and pain >= PYODERMA_PAIN.value,
        CLEAR,
        "The pain is out of proportion.",
        MEMORY,
        at="output.pain_0_10",
    )
    evidence.speaks_for(
        facts.has(Condition.INFLAMMATORY_BOWEL_DISEASE),
        CLEAR,
        "The person has inflammatory bowel disease.",
        "wu2013/bowel_disease",
        at="person.has",
    )
    evidence.speaks_for(
        facts.bulging or facts.find(SkinKind.PRESSURE_MARK),
        HINT,
        "A hernia or a pressure mark lies beside it.",
        "wu2013/hernia_or_ulcer",
        MEMORY,
        at="abdomen.bulges",
    )
    evidence.speaks_against(
        all(s.finding.pain is False for s in seen), CLEAR, "It does not hurt.", MEMORY, at=path
    )
    return ClockHours.union(s.finding.hours for s in seen)


RULE = CauseRule(
    key="pyoderma",
    of=CauseOf.SKIN,
    title="Pyoderma gangrenosum",
    weigh=_weigh,
    tell="Look at the edge: violet and undermined? Ask how fast it grew and score the pain.",
)
