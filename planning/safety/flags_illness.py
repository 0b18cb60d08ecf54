"""Red flags of the whole person: fever, pain, severe reaction, drying out."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import (
    PAIN_MODERATE,
    PAIN_STRONG,
    SILENT_COLO_PAIN,
    SILENT_ILEO_PAIN,
)
from planning.facts.derive import Facts
from planning.inputs.findings import Colour, Condition, StomaKind, Symptom
from planning.results.plan import Urgency
from planning.safety.early import may_be_early
from planning.safety.flag import FlagRule, Verdict
from planning.safety.pain import belly_hurts, cause_seen, pain_without_cause

_AT_PRESENT: Final = "output.present"
_AT_PAIN: Final = "output.pain_0_10"
_DRY: Final = (
    Symptom.DIZZY_ON_STANDING,
    Symptom.CONFUSION,
    Symptom.LITTLE_URINE,
    Symptom.FAINTNESS,
)


def fever_weak_defences(facts: Facts) -> Verdict | None:
    """Immunosuppression without more detail counts as the weakest defences."""
    if not facts.feels(Symptom.FEVER) or not facts.has(Condition.IMMUNOSUPPRESSED):
        return None
    return Verdict(Urgency.EMERGENCY, "Fever with weak defences.", _AT_PRESENT)


def fever_after_surgery(facts: Facts) -> Verdict | None:
    """In the first 30 days, or on a day that is not known."""
    if not facts.feels(Symptom.FEVER) or not may_be_early(facts):
        return None
    colour = facts.findings.measurement.colour
    discoloured = colour not in (None, Colour.PINK_RED)
    signs = facts.feels(Symptom.SWOLLEN_ABDOMEN, Symptom.VOMITING) or belly_hurts(facts)
    if signs or discoloured:
        found = "Fever soon after surgery, with pain, a swollen abdomen, vomiting or a change of "
        return Verdict(Urgency.EMERGENCY, f"{found}the stoma's colour.", _AT_PRESENT)
    when = facts.findings.stoma.days_since_surgery
    day = "on a day after surgery that is not recorded" if when is None else f"on day {when}"
    return Verdict(Urgency.SAME_DAY, f"Fever {day}.", _AT_PRESENT)


def fever_later(facts: Facts) -> Verdict | None:
    """After the first 30 days; a urostomy has a rule of its own."""
    urine = facts.kind is StomaKind.UROSTOMY
    if not facts.feels(Symptom.FEVER) or may_be_early(facts) or urine:
        return None
    belly = facts.feels(Symptom.SWOLLEN_ABDOMEN) or belly_hurts(facts)
    blocked = facts.feels(Symptom.VOMITING, Symptom.SEVERE_CRAMPS) or _quiet(facts)
    if belly and blocked:
        found = "Fever with a painful or swollen abdomen and a sign of blockage."
        return Verdict(Urgency.EMERGENCY, found, _AT_PRESENT)
    return Verdict(Urgency.SAME_DAY, "Fever.", _AT_PRESENT)


def _quiet(facts: Facts) -> bool:
    hours = facts.findings.output.hours_without_output
    limit = SILENT_ILEO_PAIN if facts.small_bowel else SILENT_COLO_PAIN
    return hours is not None and hours >= limit.value


def pain(facts: Facts) -> Verdict | None:
    """Pain at the stoma. What explains it on the skin has a level of its own, in days at least
    where the pain is strong; within 30 days of surgery unexplained pain goes up one level."""
    score = facts.findings.output.pain_0_10 or 0
    if cause_seen(facts):
        if score < PAIN_STRONG.value:
            return None
        return Verdict(Urgency.DAYS, f"Pain at the stoma is {score} of 10.", _AT_PAIN)
    score = pain_without_cause(facts)
    if score < PAIN_MODERATE.value:
        return None
    found = f"Pain at the stoma is {score} of 10, and nothing seen there explains it."
    strong, early = score >= PAIN_STRONG.value, may_be_early(facts)
    if strong and early:
        return Verdict(Urgency.EMERGENCY, found, _AT_PAIN)
    if strong or early:
        return Verdict(Urgency.SAME_DAY, found, _AT_PAIN)
    return Verdict(Urgency.DAYS, found, _AT_PAIN)


def loin_pain(facts: Facts) -> Verdict | None:
    """Beside a bowel stoma; with a urostomy it is an emergency by the rule of its own."""
    if facts.kind is StomaKind.UROSTOMY or not facts.feels(Symptom.LOIN_PAIN):
        return None
    urgency = Urgency.SAME_DAY if may_be_early(facts) else Urgency.DAYS
    return Verdict(urgency, "Loin pain.", _AT_PRESENT)


def anaphylaxis(facts: Facts) -> Verdict | None:
    if not facts.feels(Symptom.FACE_SWELLING_OR_WHEEZE):
        return None
    return Verdict(Urgency.EMERGENCY, "Swelling of the face or wheeze.", _AT_PRESENT)


def dehydrated(facts: Facts) -> Verdict | None:
    if not facts.feels(*_DRY):
        return None
    return Verdict(
        Urgency.EMERGENCY,
        "Dizzy on standing, faint, confused or passing very little urine.",
        _AT_PRESENT,
    )


RULES: Final = (
    FlagRule(
        "anaphylaxis",
        "Severe allergic reaction",
        "emergency department",
        "Take the product off; call help.",
        (PRACTICE,),
        anaphylaxis,
        "You may have a bad reaction. Call for help now.",
    ),
    FlagRule(
        "dehydration",
        "Signs of dehydration or serious illness",
        "emergency department",
        "Pulse, blood pressure lying and standing; bloods.",
        ("gateshead", PRACTICE),
        dehydrated,
        "You may be short of salt and water. A doctor must look now.",
    ),
    FlagRule(
        "fever_weak_defences",
        "Fever with weak defences",
        "emergency department",
        "Say which treatment weakens the defences and when it was last given. Do not wait for "
        "the temperature to fall.",
        ("neutropenia2018", DESIGN),
        fever_weak_defences,
        "You have a fever, and your body cannot fight germs well. A doctor must look now.",
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
        "pain",
        "Pain that must be explained",
        "surgeon or physician",
        "Ask whether it is new or getting worse; feel the abdomen; look under the barrier.",
        (DESIGN,),
        pain,
        "You have strong pain. A doctor must look now.",
        told_at={
            Urgency.SAME_DAY: "You have strong pain. A doctor must look today.",
            Urgency.DAYS: "You have pain. The team will look for the cause within days.",
        },
        adult_figures=True,
    ),
    FlagRule(
        "loin_pain",
        "Loin pain",
        "physician",
        "Temperature, urine and kidney function.",
        (DESIGN,),
        loin_pain,
        "You have pain in your side. A doctor must look today.",
        told_at={Urgency.DAYS: "You have pain in your side. A doctor will look within days."},
        adult_figures=True,
    ),
)
