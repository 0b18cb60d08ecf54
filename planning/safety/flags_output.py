"""Red flags of the amount that comes out."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN
from planning.evidence.thresholds import OUTPUT_CALL, OUTPUT_EMERGENCY, OUTPUT_URGENT, WATERY_HOURS
from planning.facts.derive import Facts
from planning.inputs.findings import StomaKind, Symptom
from planning.results.plan import Urgency
from planning.safety.flag import FlagRule, Verdict

_DRY: Final = (
    Symptom.DIZZY_ON_STANDING,
    Symptom.CONFUSION,
    Symptom.LITTLE_URINE,
    Symptom.FAINTNESS,
)


def high_output(facts: Facts) -> Verdict | None:
    volume = facts.findings.output.volume_ml_24h
    if volume is None or facts.kind is StomaKind.UROSTOMY or volume < OUTPUT_CALL.value:
        return None
    found = f"Output is {volume:g} mL in 24 hours."
    at = "output.volume_ml_24h"
    dry = volume >= OUTPUT_URGENT.value and facts.feels(*_DRY)
    if volume >= OUTPUT_EMERGENCY.value or dry:
        return Verdict(Urgency.EMERGENCY, found, at)
    return Verdict(Urgency.SAME_DAY, found, at)


def watery(facts: Facts) -> Verdict | None:
    hours = facts.findings.output.watery_for_hours
    if hours is None or hours <= WATERY_HOURS.value or facts.kind is StomaKind.UROSTOMY:
        return None
    found = f"Output has been watery for {hours:g} hours."
    return Verdict(Urgency.SAME_DAY, found, "output.watery_for_hours")


RULES: Final = (
    FlagRule(
        "high_output",
        "High output",
        "physician",
        "Bloods with electrolytes and magnesium; oral rehydration plan, not plain water.",
        ("baker2011", "arenas2015", "gateshead", DESIGN),
        high_output,
        "Your stoma gives too much. Call the team. Plain water does not help.",
        adult_figures=True,
    ),
    FlagRule(
        "watery",
        "Watery for more than a day",
        "stoma team, by telephone",
        "Oral rehydration plan, not plain water; look again in 24 hours.",
        ("gateshead",),
        watery,
        "Your stoma has been watery for over a day. Call the team.",
        adult_figures=True,
    ),
)
