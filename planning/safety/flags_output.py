"""Red flags of output and of the whole person: blockage, dehydration, fever, reaction."""

from __future__ import annotations

from typing import Final

from planning.derive import Facts
from planning.findings import StomaKind, Symptom
from planning.plan import Urgency
from planning.safety.flag import FlagRule, Verdict
from planning.sources import DESIGN, MEMORY, PRACTICE
from planning.thresholds import (
    OUTPUT_CALL,
    OUTPUT_EMERGENCY,
    OUTPUT_URGENT,
    SILENT_COLO,
    SILENT_COLO_PAIN,
    SILENT_ILEO,
    SILENT_ILEO_PAIN,
    SILENT_URO,
    SILENT_URO_LONG,
    WATERY_HOURS,
)

_DRY: Final = (
    Symptom.DIZZY_ON_STANDING,
    Symptom.CONFUSION,
    Symptom.LITTLE_URINE,
    Symptom.FAINTNESS,
)
_AT_SILENT: Final = "output.hours_without_output"
_AT_VOLUME: Final = "output.volume_ml_24h"


def _silent(facts: Facts) -> float:
    """Hours without output; where not recorded no flag is raised (it is listed as missing)."""
    return facts.findings.output.hours_without_output or 0.0


def _blocked_ileostomy(facts: Facts) -> Verdict | None:
    hours = _silent(facts)
    if not facts.small_bowel or hours < SILENT_ILEO_PAIN.value:
        return None
    found = f"No output for {hours:g} hours"
    if facts.feels(Symptom.SEVERE_CRAMPS, Symptom.SWOLLEN_ABDOMEN, Symptom.VOMITING):
        found += ", with severe cramps, a swollen abdomen or vomiting."
        return Verdict(Urgency.EMERGENCY, found, _AT_SILENT)
    if facts.feels(Symptom.MILD_CRAMPS, Symptom.NAUSEA):
        return Verdict(Urgency.SAME_DAY, found + ", with cramps or nausea.", _AT_SILENT)
    return (
        Verdict(Urgency.SAME_DAY, found + ".", _AT_SILENT) if hours >= SILENT_ILEO.value else None
    )


def _blocked_colostomy(facts: Facts) -> Verdict | None:
    hours = _silent(facts)
    if facts.kind is not StomaKind.COLOSTOMY or hours < SILENT_COLO_PAIN.value:
        return None
    found = f"No output for {hours:g} hours"
    signs = (
        Symptom.SEVERE_CRAMPS,
        Symptom.MILD_CRAMPS,
        Symptom.VOMITING,
        Symptom.SWOLLEN_ABDOMEN,
    )
    if facts.feels(*signs):
        return Verdict(Urgency.EMERGENCY, found + ", with pain or vomiting.", _AT_SILENT)
    if hours >= SILENT_COLO.value:
        return Verdict(Urgency.DAYS, found + ", otherwise well.", _AT_SILENT)
    return None


def _no_urine(facts: Facts) -> Verdict | None:
    hours = _silent(facts)
    if facts.kind is not StomaKind.UROSTOMY or hours < SILENT_URO.value:
        return None
    worse = hours >= SILENT_URO_LONG.value or facts.feels(Symptom.LOIN_PAIN, Symptom.FEVER)
    urgency = Urgency.EMERGENCY if worse else Urgency.SAME_DAY
    return Verdict(urgency, f"No urine for {hours:g} hours.", _AT_SILENT)


def _kidney(facts: Facts) -> Verdict | None:
    if facts.kind is not StomaKind.UROSTOMY or not facts.feels(Symptom.FEVER, Symptom.LOIN_PAIN):
        return None
    return Verdict(Urgency.EMERGENCY, "Fever or loin pain with a urostomy.", "output.present")


def _high_output(facts: Facts) -> Verdict | None:
    volume = facts.findings.output.volume_ml_24h
    if volume is None or facts.kind is StomaKind.UROSTOMY or volume < OUTPUT_CALL.value:
        return None
    found = f"Output is {volume:g} mL in 24 hours."
    dry = volume >= OUTPUT_URGENT.value and facts.feels(*_DRY)
    if volume >= OUTPUT_EMERGENCY.value or dry:
        return Verdict(Urgency.EMERGENCY, found, _AT_VOLUME)
    return Verdict(Urgency.SAME_DAY, found, _AT_VOLUME)


def _watery(facts: Facts) -> Verdict | None:
    hours = facts.findings.output.watery_for_hours
    if hours is None or hours <= WATERY_HOURS.value or facts.kind is StomaKind.UROSTOMY:
        return None
    found = f"Output has been watery for {hours:g} hours."
    return Verdict(Urgency.SAME_DAY, found, "output.watery_for_hours")


def _dehydrated(facts: Facts) -> Verdict | None:
    if not facts.feels(*_DRY):
        return None
    return Verdict(
        Urgency.EMERGENCY,
        "Dizzy on standing, faint, confused or passing very little urine.",
        "output.present",
    )


def _anaphylaxis(facts: Facts) -> Verdict | None:
    if not facts.feels(Symptom.FACE_SWELLING_OR_WHEEZE):
        return None
    return Verdict(Urgency.EMERGENCY, "Swelling of the face or wheeze.", "output.present")


RULES: Final = (
    FlagRule(
        "anaphylaxis",
        "Severe allergic reaction",
        "emergency department",
        "Take the product off; call help.",
        (PRACTICE,),
        _anaphylaxis,
        "You may have a bad reaction. Call for help now.",
    ),
    FlagRule(
        "blocked_ileostomy",
        "The ileostomy may be blocked",
        "surgeon or emergency department",
        "Nothing by mouth if vomiting. Put nothing into the stoma; no laxatives.",
        ("obstruction", "seekhelp2009", "nhsileostomy", DESIGN),
        _blocked_ileostomy,
        "Your stoma may be blocked. Do not eat. Put nothing into the stoma.",
        adult_figures=True,
    ),
    FlagRule(
        "blocked_colostomy",
        "The colostomy may be blocked",
        "surgeon or emergency department",
        "Put nothing into the stoma; no laxatives before an examination.",
        (PRACTICE,),
        _blocked_colostomy,
        "Your stoma has not worked for too long. A doctor must look.",
        adult_figures=True,
    ),
    FlagRule(
        "no_urine",
        "No urine from the urostomy",
        "urologist or emergency department",
        "Turn the person, check pouch and tap.",
        (MEMORY,),
        _no_urine,
        "No urine is coming. A doctor must look.",
        adult_figures=True,
    ),
    FlagRule(
        "urine_infection",
        "Fever or loin pain with a urostomy",
        "emergency department",
        "Take temperature, pulse and blood pressure.",
        (MEMORY,),
        _kidney,
        "Fever or pain in your side needs a doctor now.",
    ),
    FlagRule(
        "high_output",
        "High output",
        "physician",
        "Bloods with electrolytes and magnesium; oral rehydration plan, not plain water.",
        ("baker2011", "arenas2015", "gateshead", DESIGN),
        _high_output,
        "Your stoma gives too much. Call the team. Plain water does not help.",
        adult_figures=True,
    ),
    FlagRule(
        "watery",
        "Watery for more than a day",
        "stoma team, by telephone",
        "Oral rehydration plan, not plain water; look again in 24 hours.",
        ("gateshead",),
        _watery,
        "Your stoma has been watery for over a day. Call the team.",
        adult_figures=True,
    ),
    FlagRule(
        "dehydration",
        "Signs of dehydration or serious illness",
        "emergency department",
        "Pulse, blood pressure lying and standing; bloods.",
        ("gateshead", PRACTICE),
        _dehydrated,
        "You may be short of salt and water. A doctor must look now.",
    ),
)
