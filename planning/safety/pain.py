"""Pain as far as it is recorded: cramps, and pain at the stoma with no cause seen on the skin."""

from typing import Final

from planning.facts.derive import Facts, Seen
from planning.inputs.findings import SkinKind, Symptom

CRAMPS: Final = (Symptom.MILD_CRAMPS, Symptom.SEVERE_CRAMPS)
#: Sore skin that hurts by itself. What is a danger of its own never explains pain away.
_SORE: Final = (
    SkinKind.ERYTHEMA,
    SkinKind.EROSION,
    SkinKind.ULCER,
    SkinKind.BLISTERS,
    SkinKind.SATELLITES,
    SkinKind.HAIR_PUSTULES,
    SkinKind.MACERATION,
    SkinKind.STRIPPING,
    SkinKind.PRESSURE_MARK,
)


def cause_seen(facts: Facts) -> bool:
    """Sore skin, unless it crackles or is numb. Skin that was not looked at explains nothing."""
    return any(not seen.finding.numb_or_crackling for seen in facts.find(*_SORE))


def pain_without_cause(facts: Facts) -> int:
    """Pain at the stoma, 0 to 10, that nothing seen there explains; 0 where none is recorded."""
    return 0 if cause_seen(facts) else facts.findings.output.pain_0_10 or 0


def pain_at(seen: Seen, facts: Facts) -> int | None:
    """Pain of this place or at the stoma, the stronger; None where neither has a score."""
    scores = (seen.finding.pain_0_10, facts.findings.output.pain_0_10)
    return max((score for score in scores if score is not None), default=None)


def belly_hurts(facts: Facts) -> bool:
    """Cramps of any strength, or pain that the skin does not explain."""
    return facts.feels(*CRAMPS) or pain_without_cause(facts) > 0
