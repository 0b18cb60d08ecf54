"""Leak because a bulge beside the stoma lifts the barrier off the other, low side."""

from planning.causes.rule import CLEAR, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    if not facts.findings.abdomen.bulges or not facts.troubled:
        return None
    low = facts.bulge_hours.opposite()
    evidence.speaks_for(
        True,
        CLEAR,
        f"A bulge{facts.bulge_hours.placed()} bends the barrier.",
        "martins2022/outward",
        at="abdomen.bulges",
    )
    evidence.speaks_for(
        low.widened() & facts.leak_hours,
        STRONG,
        "The leak is on the low side, opposite the bulge.",
        MEMORY,
        at="system.leak",
    )
    return facts.bulge_hours


RULE = CauseRule(
    key="bulge",
    of=CauseOf.LEAK,
    title="Bulge beside the stoma",
    weigh=_weigh,
    tell="Feel lying and standing with a cough: does it grow, does the barrier wrinkle?",
)
