"""Leak because the barrier stayed on until it was washed out."""

from planning.causes.rule import ANYWHERE, CLEAR, HINT, CauseRule, Evidence
from planning.evidence.sources import MEMORY, PRACTICE
from planning.evidence.thresholds import WEAR_LONG
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    longest = None if facts.wear is None else facts.wear.longest_days
    if longest is None or longest <= WEAR_LONG.value or not facts.troubled:
        return None
    evidence.speaks_for(
        True, CLEAR, f"A barrier was worn for {longest:g} days.", PRACTICE, at="wear"
    )
    system = facts.findings.system
    evidence.speaks_for(
        system is not None and system.erosion is not None and len(system.erosion) >= 10,
        HINT,
        "The barrier melted all round.",
        MEMORY,
        at="system.erosion",
    )
    return ANYWHERE


RULE = CauseRule(
    key="long_wear",
    of=CauseOf.LEAK,
    title="Barrier worn too long",
    weigh=_weigh,
    tell="Keep a diary: on which day does the barrier begin to let go?",
)
