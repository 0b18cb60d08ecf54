"""What is felt that forbids eating and drinking, whatever else a plan says of drinks."""

from __future__ import annotations

from typing import Final

from planning.facts.derive import Facts
from planning.inputs.findings import Symptom

_PAIN: Final = (
    Symptom.MILD_CRAMPS,
    Symptom.SEVERE_CRAMPS,
    Symptom.CONSTANT_SEVERE_PAIN,
    Symptom.ABDOMINAL_PAIN,
    Symptom.RISING_PAIN,
    Symptom.RIGID_ABDOMEN,
)


def forbidden_by_mouth(facts: Facts) -> bool:
    """Vomiting, drinks not kept down, or no output with pain; severe cramps with unknown hours
    count as no output. Bowel stuck or outside is judged by its flags."""
    if facts.feels(Symptom.VOMITING, Symptom.CANNOT_KEEP_FLUIDS):
        return True
    hours = facts.findings.output.hours_without_output
    quiet = bool(hours) or facts.feels(Symptom.NO_GAS)
    unknown = hours is None and facts.feels(Symptom.SEVERE_CRAMPS)
    return (quiet and facts.feels(*_PAIN)) or unknown
