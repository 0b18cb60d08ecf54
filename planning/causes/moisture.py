"""Moisture under the barrier without a leak: sweat, washed-out barrier, folds."""

from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.evidence.thresholds import WEAR_LONG
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import SkinKind, StomaKind
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    seen = facts.find(SkinKind.MACERATION)
    if not seen:
        return None
    path = seen[0].path
    evidence.speaks_for(True, CLEAR, "The skin is pale, wrinkled and soggy.", MEMORY, at=path)
    longest = None if facts.wear is None else facts.wear.longest_days
    evidence.speaks_for(
        longest is not None and longest > WEAR_LONG.value,
        CLEAR,
        "The barrier is worn for more than 7 days.",
        MEMORY,
        at="wear",
    )
    evidence.speaks_for(
        facts.kind is StomaKind.UROSTOMY, HINT, "Urine keeps the skin wet.", MEMORY, at="stoma.kind"
    )
    evidence.speaks_for(
        facts.leaking is False, CLEAR, "The barrier sealed.", MEMORY, at="system.leak"
    )
    hours = facts.hours_of(SkinKind.MACERATION)
    evidence.speaks_against(
        hours & facts.leak_hours,
        STRONG,
        "Effluent was under the barrier at the same hours.",
        MEMORY,
        at="system.leak",
    )
    return hours


RULE = CauseRule(
    key="moisture",
    of=CauseOf.SKIN,
    title="Moisture under the barrier without a leak",
    weigh=_weigh,
    tell="Ask how long each barrier is worn, and whether the skin is dry before it goes on.",
)
