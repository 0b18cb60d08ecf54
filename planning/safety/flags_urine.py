"""Red flags of a urostomy: too little urine, infection, blood, acid."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, MEMORY
from planning.evidence.thresholds import SILENT_URO, SILENT_URO_LONG, URINE_LITTLE
from planning.facts.derive import Facts
from planning.inputs.findings import Bleeding, Colour, StomaKind, Symptom, UrineSign
from planning.results.plan import Urgency
from planning.safety.flag import FlagRule, Verdict

_AT_SILENT: Final = "output.hours_without_output"
_AT_VOLUME: Final = "output.volume_ml_24h"
#: Signs that make too little urine an emergency.
_ILL: Final = (
    Symptom.LOIN_PAIN,
    Symptom.FEVER,
    Symptom.VOMITING,
    Symptom.FAINTNESS,
    Symptom.CONFUSION,
    Symptom.SWOLLEN_ABDOMEN,
)

_TOLD_AT: Final = {Urgency.SAME_DAY: "Very little urine comes. A doctor must look today."}


def _urine(facts: Facts) -> bool:
    return facts.kind is StomaKind.UROSTOMY


def no_urine(facts: Facts) -> Verdict | None:
    """By hours; with a sign of illness two hours are enough."""
    hours = facts.findings.output.hours_without_output
    if not _urine(facts) or hours is None or hours < SILENT_URO.value:
        return None
    worse = hours >= SILENT_URO_LONG.value or facts.feels(*_ILL)
    urgency = Urgency.EMERGENCY if worse else Urgency.SAME_DAY
    return Verdict(urgency, f"No urine for {hours:g} hours.", _AT_SILENT)


def little_urine(facts: Facts) -> Verdict | None:
    """By the volume of a day."""
    volume = facts.findings.output.volume_ml_24h
    if not _urine(facts) or volume is None or volume >= URINE_LITTLE.value:
        return None
    worse = volume == 0 or facts.feels(*_ILL)
    found = f"Urine is {volume:g} mL in 24 hours."
    return Verdict(Urgency.EMERGENCY if worse else Urgency.SAME_DAY, found, _AT_VOLUME)


def urine_infection(facts: Facts) -> Verdict | None:
    if not _urine(facts) or not facts.feels(Symptom.FEVER, Symptom.LOIN_PAIN):
        return None
    return Verdict(Urgency.EMERGENCY, "Fever or loin pain with a urostomy.", "output.present")


def blood_in_urine(facts: Facts) -> Verdict | None:
    """Blood out of the opening, not of the stoma's surface."""
    if not _urine(facts):
        return None
    bleeding = facts.findings.measurement.bleeding
    inside = bleeding in (Bleeding.SEVERAL_EMPTIES, Bleeding.FROM_LUMEN)
    seen = UrineSign.BLOOD in (facts.findings.output.urine_signs or ())
    if not (inside or seen):
        return None
    faint = facts.feels(Symptom.FAINTNESS, Symptom.DIZZY_ON_STANDING)
    worse = faint or facts.findings.measurement.colour is Colour.PALE
    at = "measurement.bleeding" if inside else "output.urine_signs"
    found = "There is blood in the urine. Whether it holds clots is not recorded."
    return Verdict(Urgency.EMERGENCY if worse else Urgency.SAME_DAY, found, at)


def unwell_with_urostomy(facts: Facts) -> Verdict | None:
    """Acid taken up from urine in the bowel makes sick; so does a kidney that fails."""
    if not _urine(facts) or not facts.feels(Symptom.NAUSEA, Symptom.VOMITING):
        return None
    return Verdict(Urgency.SAME_DAY, "Nausea or vomiting with a urostomy.", "output.present")


RULES: Final = (
    FlagRule(
        "no_urine",
        "No urine from the urostomy",
        "urologist or emergency department",
        "Look once for a kink, a twist or a full pouch, without delay. Flush nothing.",
        (MEMORY, DESIGN),
        no_urine,
        "No urine is coming. A doctor must look now.",
        told_at=_TOLD_AT,
        adult_figures=True,
    ),
    FlagRule(
        "little_urine",
        "Too little urine from the urostomy",
        "urologist or emergency department",
        "Look once for a kink, a twist or a full pouch. Kidney function; more to drink is not "
        "the answer by itself.",
        (DESIGN,),
        little_urine,
        "Hardly any urine is coming. A doctor must look now.",
        within=("no_urine",),
        told_at=_TOLD_AT,
        adult_figures=True,
    ),
    FlagRule(
        "urine_infection",
        "Fever or loin pain with a urostomy",
        "emergency department",
        "Take temperature, pulse and blood pressure.",
        (MEMORY,),
        urine_infection,
        "Fever or pain in your side needs a doctor now.",
    ),
    FlagRule(
        "blood_in_urine",
        "Blood in the urine of a urostomy",
        "urologist or physician",
        "Ask for clots: with clots, or where the flow stops, it is an emergency. Name blood "
        "thinners; do not stop them. Think of infection.",
        ("urostomytips", DESIGN),
        blood_in_urine,
        "There is blood in your urine. A doctor must look now.",
        told_at={Urgency.SAME_DAY: "There is blood in your urine. A doctor must look today."},
    ),
    FlagRule(
        "unwell_with_urostomy",
        "Sick with a urostomy",
        "physician",
        "Temperature, pulse, breathing, kidney function and acid balance.",
        ("urostomynz", DESIGN),
        unwell_with_urostomy,
        "You feel sick. A doctor must look today.",
    ),
)
