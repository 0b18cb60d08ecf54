"""Yeast (candida) under the barrier."""

from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Condition, SkinKind
from planning.results.plan import CauseOf

_FAVOURS = (
    (Condition.RECENT_ANTIBIOTICS, "Antibiotics were taken recently."),
    (Condition.DIABETES, "The person has diabetes."),
    (Condition.IMMUNOSUPPRESSED, "The person's defences are lowered."),
)


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    seen = facts.find(SkinKind.SATELLITES)
    if not seen:
        return None
    path = seen[0].path
    evidence.speaks_for(
        True, STRONG, "Satellite spots lie outside the main edge.", "hightech/satellites", at=path
    )
    evidence.speaks_for(
        any(s.finding.itch or s.finding.burning for s in seen),
        HINT,
        "It itches or burns.",
        MEMORY,
        at=path,
    )
    for condition, text in _FAVOURS:
        evidence.speaks_for(facts.has(condition), HINT, text, MEMORY, at="person.has")
    evidence.speaks_for(
        facts.find(SkinKind.MACERATION) or any(s.finding.moist for s in seen),
        HINT,
        "The skin is moist.",
        MEMORY,
        at=path,
    )
    evidence.speaks_against(
        facts.find(SkinKind.HAIR_PUSTULES), CLEAR, "Spots sit on hairs.", MEMORY
    )
    return facts.hours_of(SkinKind.SATELLITES)


RULE = CauseRule(
    key="yeast",
    of=CauseOf.SKIN,
    title="Yeast",
    weigh=_weigh,
    tell="Look for satellite spots outside the edge, and ask the prescriber for a swab or scrape.",
)
