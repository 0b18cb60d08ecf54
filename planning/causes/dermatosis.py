"""A skin disease of its own: psoriasis, eczema, seborrhoeic dermatitis."""

from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Condition, SkinKind
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    scale = facts.find(SkinKind.SCALE)
    known = facts.has(Condition.PSORIASIS_OR_ECZEMA)
    red = facts.find(SkinKind.ERYTHEMA)
    if not scale and not (known and red):
        return None
    seen = scale or red
    evidence.speaks_for(
        scale, CLEAR, "A well-defined red patch with scale.", MEMORY, at=seen[0].path
    )
    evidence.speaks_for(
        known,
        STRONG,
        "Psoriasis or eczema is known; a fifth of skin disease at a stoma was of this sort.",
        "lyon2000spectrum/skin_disease",
        at="person.has",
    )
    evidence.speaks_for(
        any(s.finding.itch for s in seen), HINT, "It itches.", MEMORY, at=seen[0].path
    )
    evidence.speaks_against(
        known is False, CLEAR, "No psoriasis or eczema is known.", MEMORY, at="person.has_not"
    )
    return ClockHours.union(s.finding.hours for s in seen)


RULE = CauseRule(
    key="dermatosis",
    of=CauseOf.SKIN,
    title="Psoriasis, eczema or another skin disease",
    weigh=_weigh,
    tell="Look at scalp, elbows and knees for the same patches.",
)
