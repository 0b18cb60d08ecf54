"""Cellulitis or abscess beside the stoma."""

from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Condition, SkinKind, Symptom
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    seen = facts.find(SkinKind.SPREADING_WARMTH, SkinKind.ABSCESS)
    if not seen:
        return None
    path = seen[0].path
    evidence.speaks_for(
        facts.find(SkinKind.SPREADING_WARMTH),
        STRONG,
        "Redness that spreads, warm, tender and firm.",
        "hightech/cellulitis",
        at=path,
    )
    evidence.speaks_for(
        facts.find(SkinKind.ABSCESS), STRONG, "A painful lump with pus.", MEMORY, at=path
    )
    evidence.speaks_for(
        facts.feels(Symptom.FEVER), CLEAR, "There is fever.", MEMORY, at="output.present"
    )
    evidence.speaks_for(
        facts.has(Condition.IMMUNOSUPPRESSED)
        or facts.has(Condition.INFLAMMATORY_BOWEL_DISEASE)
        or facts.find(SkinKind.FISTULA),
        HINT,
        "Lowered defences, bowel disease or a fistula make it more likely.",
        MEMORY,
        at="person.has",
    )
    evidence.speaks_against(
        any(s.finding.itch and s.finding.product_outline for s in seen),
        CLEAR,
        "It itches and has the outline of a product.",
        MEMORY,
        at=path,
    )
    return ClockHours.union(s.finding.hours for s in seen)


RULE = CauseRule(
    key="infection",
    of=CauseOf.SKIN,
    title="Infection (cellulitis or abscess)",
    weigh=_weigh,
    tell="Take the temperature, mark the edge with the time, and look again the same day.",
)
