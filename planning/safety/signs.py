"""Signs that several rules ask for: fever, pulse, pain in the belly, weak defences.

Each answers None where it was neither asked nor measured: that is never a no.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from planning.evidence.thresholds import FEVER, TOO_COLD, Threshold
from planning.facts.derive import Facts
from planning.inputs.findings import Condition, Medicine, Symptom
from planning.safety.pain import belly_hurts

#: Pain in the belly itself, not at the skin, a wound or a gap.
IN_THE_BELLY: Final = (
    Symptom.MILD_CRAMPS,
    Symptom.SEVERE_CRAMPS,
    Symptom.ABDOMINAL_PAIN,
    Symptom.CONSTANT_SEVERE_PAIN,
    Symptom.RIGID_ABDOMEN,
)
_WEAK: Final = (
    Condition.IMMUNOSUPPRESSED,
    Condition.CHEMOTHERAPY_RECENT,
    Condition.NEUTROPENIA,
    Condition.TRANSPLANT,
)


def fever(facts: Facts) -> bool | None:
    """Now, in the last 24 hours, or reported."""
    vitals = facts.findings.output.vitals
    measured = [t for t in (vitals.temperature_c, vitals.highest_c) if t is not None]
    if facts.feels(Symptom.FEVER) or any(t >= FEVER.value for t in measured):
        return True
    asked = vitals.temperature_c is not None or facts.asked(Symptom.FEVER) is False
    return False if asked else None


def too_cold(facts: Facts) -> bool:
    """Below the temperature that is a danger with weak defences."""
    vitals = facts.findings.output.vitals
    measured = (vitals.temperature_c, vitals.highest_c)
    return any(t is not None and t < TOO_COLD.value for t in measured)


def pulse_over(limit: Threshold, facts: Facts) -> bool | None:
    """The resting pulse; None where it was not taken."""
    pulse = facts.findings.output.vitals.pulse
    return None if pulse is None else pulse > limit.value


def belly_pain(facts: Facts) -> bool:
    """Any pain of the belly, mild cramps included, or pain at the stoma without a cause seen."""
    return facts.feels(*IN_THE_BELLY, Symptom.RISING_PAIN) or belly_hurts(facts)


def weak_defences(facts: Facts) -> bool:
    """Without more detail any immunosuppression counts, and so does a steroid or biologic."""
    known = any(facts.has(condition) for condition in _WEAK)
    return known or bool(facts.takes(Medicine.STEROID, Medicine.BIOLOGIC))


def not_asked(facts: Facts, asked: Iterable[tuple[Symptom, str]]) -> list[str]:
    """The words of each symptom that was not asked for."""
    return [words for symptom, words in asked if facts.asked(symptom) is None]


def not_measured(facts: Facts) -> list[str]:
    """Temperature and pulse, where neither is known."""
    open_ = ["temperature"] if fever(facts) is None else []
    return open_ + (["pulse"] if facts.findings.output.vitals.pulse is None else [])
