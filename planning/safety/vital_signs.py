"""Vital signs and medicines as far as they are recorded; None is not recorded."""

from __future__ import annotations

from planning.evidence.thresholds import COLD_UNDER, PULSE_FAST
from planning.facts.derive import Facts
from planning.facts.vital_signs import feverish
from planning.inputs.findings import Condition, Medicine


def pulse_fast(facts: Facts) -> bool | None:
    """None: not taken."""
    pulse = facts.findings.output.vitals.pulse
    return None if pulse is None else pulse > PULSE_FAST.value


def vitals_usual(facts: Facts) -> bool | None:
    """Temperature and pulse taken and usual. None: not both taken."""
    vitals = facts.findings.output.vitals
    temperature = vitals.temperature_c
    if feverish(facts) or pulse_fast(facts):
        return False
    if temperature is None or vitals.pulse is None:
        return None
    return temperature >= COLD_UNDER.value


def anticoagulated(facts: Facts) -> bool | None:
    """By the list of medicines or the illnesses; None: neither says."""
    listed = facts.findings.person.takes(Medicine.ANTICOAGULANT)
    noted = facts.has(Condition.ANTICOAGULANT)
    if listed or noted:
        return True
    return None if listed is None and noted is None else False


def bleeds_more_easily(facts: Facts) -> bool | None:
    """Anticoagulant or antiplatelet. None: the list of medicines is not known."""
    if anticoagulated(facts):
        return True
    return facts.findings.person.takes(Medicine.ANTIPLATELET)
