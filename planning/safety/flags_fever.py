"""Red flags of infection of the whole body: fever, rigors, pulse, breathing, blood pressure.

Steroids and biologics hide a fever, so what makes an emergency on any day asks for none.
"""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, MEMORY
from planning.evidence.thresholds import (
    BREATHS_MOST,
    OUTPUT_URGENT,
    PULSE_ANY_DAY,
    PULSE_EARLY,
    PULSE_INFECTED,
    SILENT_COLO,
    SILENT_ILEO_DAY,
    SYSTOLIC_LEAST,
    SYSTOLIC_LOW,
)
from planning.facts.colour import colours
from planning.facts.derive import Facts
from planning.facts.in_words import joined
from planning.facts.separation import SeparationClass
from planning.inputs.findings import BaselineKind, Colour, Condition, SkinKind, StomaKind, Symptom
from planning.results.plan import Urgency
from planning.safety import drying
from planning.safety.early import may_be_early
from planning.safety.flag import FlagRule, Verdict
from planning.safety.flags_bleeding import bleeds_on
from planning.safety.flags_blockage import silent
from planning.safety.signs import (
    belly_pain,
    fever,
    not_asked,
    not_measured,
    pulse_over,
    too_cold,
    weak_defences,
)

_AT_PRESENT: Final = "output.present"
_AT_VITALS: Final = "output.vitals"
_ILL: Final = (
    Symptom.RIGORS,
    Symptom.LOOKS_ILL,
    Symptom.DROWSY,
    Symptom.PALE,
)
#: What makes fever soon after surgery an emergency, in the words of the question.
_BESIDE_FEVER: Final = {
    Symptom.ABDOMINAL_PAIN: "pain in the belly",
    Symptom.MILD_CRAMPS: "cramps, mild ones too",
    Symptom.SWOLLEN_ABDOMEN: "a swollen abdomen",
    Symptom.RIGORS: "rigors",
}
_BLOCKED: Final = (
    Symptom.VOMITING,
    Symptom.SEVERE_CRAMPS,
    Symptom.NO_GAS,
    Symptom.SPURTING_OUTPUT,
)


def sepsis(facts: Facts) -> Verdict | None:
    """On any day, with fever or without. Confusion that was agreed as known is judged with the
    signs of dehydration."""
    vitals = facts.findings.output.vitals
    pressure, breaths = vitals.systolic_mmhg, vitals.breaths
    agreed = facts.history.baseline(BaselineKind.CONFUSION) is not None
    low = SYSTOLIC_LOW if _another_sign(facts) else SYSTOLIC_LEAST
    signs = [
        words
        for there, words in (
            (facts.feels(Symptom.CONFUSION) and not agreed, "new confusion"),
            (facts.feels(Symptom.MOTTLED_SKIN), "mottled or ashen skin"),
            (breaths is not None and breaths >= BREATHS_MOST.value, "very fast breathing"),
            (pulse_over(PULSE_ANY_DAY, facts), "a very fast pulse"),
            (pressure is not None and pressure <= low.value, "a low blood pressure"),
            (
                facts.feels(Symptom.RIGORS) and facts.has(Condition.CENTRAL_LINE),
                "rigors with a central line",
            ),
        )
        if there
    ]
    if signs:
        found = joined(signs)
        return Verdict(Urgency.EMERGENCY, f"{found[:1].upper()}{found[1:]}.", _AT_VITALS)
    return None


def _another_sign(facts: Facts) -> bool:
    """Beside a lowish blood pressure: of infection, of dehydration, or of blood lost."""
    felt = facts.feels(*_ILL, *drying.GRAVE) or bool(drying.clear_signs(facts))
    measured = fever(facts) or pulse_over(PULSE_INFECTED, facts) or belly_pain(facts)
    return felt or bool(measured) or bleeds_on(facts)


def unwell(facts: Facts) -> Verdict | None:
    """Ill to look at, or rigors: soon after surgery rigors are an emergency by themselves."""
    rigors = facts.feels(Symptom.RIGORS)
    if not rigors and not facts.feels(Symptom.LOOKS_ILL):
        return None
    if rigors and may_be_early(facts):
        return Verdict(Urgency.EMERGENCY, "Rigors soon after surgery.", _AT_PRESENT)
    found = "Rigors." if rigors else "The person looks ill."
    return Verdict(Urgency.SAME_DAY, found, _AT_PRESENT, joined(not_measured(facts)))


def fever_weak_defences(facts: Facts) -> Verdict | None:
    """Fever once, a temperature too low, shivering or suddenly unwell."""
    ill = facts.feels(Symptom.RIGORS, Symptom.LOOKS_ILL)
    if not weak_defences(facts) or not (fever(facts) or too_cold(facts) or ill):
        return None
    found = "Weak defences, with fever now or before, a low temperature, rigors or looking ill."
    return Verdict(Urgency.EMERGENCY, found, _AT_PRESENT)


def fever_after_surgery(facts: Facts) -> Verdict | None:
    """In the first 30 days, or on a day that is not known. Alone it is not raised again."""
    if not fever(facts) or not may_be_early(facts):
        return None
    discoloured = bool(colours(facts) - {Colour.PINK_RED})
    signs = (
        facts.feels(Symptom.SWOLLEN_ABDOMEN, Symptom.VOMITING, Symptom.RIGORS, Symptom.LOOKS_ILL)
        or belly_pain(facts)
        or pulse_over(PULSE_EARLY, facts)
    )
    if signs or discoloured:
        found = "Fever soon after surgery, with pain, a swollen abdomen, vomiting, rigors, a fast "
        return Verdict(
            Urgency.EMERGENCY, f"{found}pulse or a change of the stoma's colour.", _AT_PRESENT
        )
    when = facts.findings.stoma.days_since_surgery
    day = "on a day after surgery that is not recorded" if when is None else f"on day {when}"
    pulse = ["pulse"] if facts.findings.output.vitals.pulse is None else []
    ask = joined([*pulse, *not_asked(facts, _BESIDE_FEVER.items())])
    return Verdict(Urgency.SAME_DAY, f"Fever {day}.", _AT_PRESENT, ask)


def early_leak(facts: Facts) -> Verdict | None:
    """In the first 30 days: one sign of a leak inside is seen the same day, two are an emergency.

    A gap, an opening or much output alone has a flag of its own.
    """
    if not may_be_early(facts):
        return None
    volume = facts.findings.output.volume_ml_24h
    much = facts.kind is not StomaKind.UROSTOMY and (volume or 0) >= OUTPUT_URGENT.value
    by_itself = [
        words
        for there, words in (
            (pulse_over(PULSE_EARLY, facts), "a fast pulse at rest"),
            (facts.feels(Symptom.RISING_PAIN), "pain that rises"),
        )
        if there
    ]
    beside = [
        words
        for there, words in (
            (fever(facts), "fever"),
            (_bowel_content(facts), "bowel content beside the stoma"),
            (much, "new high output"),
            (_no_return(facts), "no gas, or no stool for long"),
        )
        if there
    ]
    signs = [*by_itself, *beside]
    if len(signs) > 1:
        found = f"Soon after surgery: {joined(signs)}."
        return Verdict(Urgency.EMERGENCY, found, _AT_VITALS)
    if not by_itself:
        return None
    ask = joined(not_measured(facts))
    return Verdict(Urgency.SAME_DAY, f"Soon after surgery: {by_itself[0]}.", _AT_VITALS, ask)


def _no_return(facts: Facts) -> bool:
    """The bowel behind a bowel stoma does not work: no gas, or silent so long that this alone is
    seen."""
    hours = facts.findings.output.hours_without_output
    if facts.kind is StomaKind.UROSTOMY:
        return False
    long = SILENT_ILEO_DAY if facts.small_bowel else SILENT_COLO
    return facts.feels(Symptom.NO_GAS) or (hours is not None and hours >= long.value)


def _bowel_content(facts: Facts) -> bool:
    return facts.separation_class is SeparationClass.OPEN or bool(facts.find(SkinKind.FISTULA))


def fever_later(facts: Facts) -> Verdict | None:
    """After the first 30 days; a urostomy has a rule of its own."""
    urine = facts.kind is StomaKind.UROSTOMY
    if not fever(facts) or may_be_early(facts) or urine:
        return None
    belly = facts.feels(Symptom.SWOLLEN_ABDOMEN, Symptom.RIGORS) or belly_pain(facts)
    if belly and (facts.feels(*_BLOCKED) or silent(facts)):
        found = "Fever with a painful or swollen abdomen or rigors, and a sign of blockage."
        return Verdict(Urgency.EMERGENCY, found, _AT_PRESENT)
    if facts.feels(Symptom.LOOKS_ILL):
        return Verdict(Urgency.EMERGENCY, "Fever, and the person looks ill.", _AT_PRESENT)
    return Verdict(Urgency.SAME_DAY, "Fever.", _AT_PRESENT)


RULES: Final = (
    FlagRule(
        "sepsis",
        "Possible sepsis",
        "emergency department",
        "Say that steroids and biologics hide a fever. Do not wait for one.",
        (MEMORY, DESIGN),
        sepsis,
        "You may have a bad infection. A doctor must look now.",
        told_at={Urgency.SAME_DAY: "You may have a bad infection. A doctor must look today."},
        adult_figures=True,
    ),
    FlagRule(
        "fever_weak_defences",
        "Fever or illness with weak defences",
        "emergency department",
        "Say which treatment weakens the defences and when it was last given, and which "
        "fever-lowering drug was taken and when. Do not wait for the temperature to fall.",
        ("neutropenia2018/fever", DESIGN),
        fever_weak_defences,
        "You have a fever, and your body cannot fight germs well. A doctor must look now.",
        adult_figures=True,
    ),
    FlagRule(
        "fever_after_surgery",
        "Fever soon after surgery",
        "surgeon",
        "Take temperature and pulse; feel the abdomen. A leak inside must be excluded before "
        "chest or urine is blamed.",
        (DESIGN,),
        fever_after_surgery,
        "You have a fever soon after surgery. A doctor must look now.",
        told_at={
            Urgency.SAME_DAY: "You have a fever soon after surgery. A doctor must look today."
        },
        adult_figures=True,
    ),
    FlagRule(
        "early_leak",
        "Possible leak inside soon after surgery",
        "surgeon",
        "Take temperature, pulse, breathing and blood pressure; feel the abdomen.",
        (DESIGN,),
        early_leak,
        "You may have a bad infection. A doctor must look now.",
        told_at={Urgency.SAME_DAY: "You may have a bad infection. A doctor must look today."},
        adult_figures=True,
    ),
    FlagRule(
        "fever",
        "Fever",
        "physician or emergency department",
        "Take temperature and pulse; look for the source, the abdomen and the skin included.",
        (DESIGN,),
        fever_later,
        "You have a fever. A doctor must look now.",
        within=("fever_weak_defences",),
        told_at={Urgency.SAME_DAY: "You have a fever. A doctor must look today."},
        adult_figures=True,
    ),
    FlagRule(
        "unwell",
        "Rigors, or looking ill",
        "physician or emergency department",
        "Take temperature, pulse, breathing and blood pressure now; look for the source.",
        (DESIGN,),
        unwell,
        "You may have a bad infection. A doctor must look now.",
        told_at={Urgency.SAME_DAY: "You may have a bad infection. A doctor must look today."},
        adult_figures=True,
    ),
)
