"""Fever as it was said or measured: the figure holds at any age. None is not recorded."""

from __future__ import annotations

from planning.evidence.thresholds import FEVER_FROM
from planning.facts.derive import Facts
from planning.inputs.findings import Symptom


def feverish(facts: Facts) -> bool | None:
    """Fever said or measured, now or within the last day. None: neither asked nor measured."""
    vitals = facts.findings.output.vitals
    taken = [c for c in (vitals.temperature_c, vitals.highest_c) if c is not None]
    if facts.feels(Symptom.FEVER) or any(c >= FEVER_FROM.value for c in taken):
        return True
    return None if facts.asked(Symptom.FEVER) is None and not taken else False
