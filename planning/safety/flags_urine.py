"""Red flags of a urostomy: too little urine, infection, obstruction at the stoma, acid."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, MEMORY
from planning.evidence.thresholds import (
    SILENT_URO,
    SILENT_URO_LONG,
    URINE_LITTLE,
    URINE_OF_USUAL,
    URINE_PER_KG,
)
from planning.facts.derive import Facts
from planning.facts.in_words import joined
from planning.facts.vital_signs import feverish
from planning.facts.weight import weight_now
from planning.inputs.age import AgeGroup
from planning.inputs.findings import BaselineKind, StomaKind, Symptom, UrineSign
from planning.results.plan import Urgency
from planning.safety.baselines import as_known
from planning.safety.flag import FlagRule, Verdict
from planning.safety.signs import not_asked

_E, _S, _D = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.DAYS
_AT_SILENT: Final = "output.hours_without_output"
_AT_VOLUME: Final = "output.volume_ml_24h"
_AT_SIGNS: Final = "output.urine_signs"
_AT_PRESENT: Final = "output.present"
#: Signs that make too little urine an emergency.
_ILL: Final = (
    Symptom.LOIN_PAIN,
    Symptom.FEVER,
    Symptom.RIGORS,
    Symptom.VOMITING,
    Symptom.FAINTNESS,
    Symptom.CONFUSION,
    Symptom.SWOLLEN_ABDOMEN,
    Symptom.LIMB_WEAKNESS,
    Symptom.PALPITATIONS,
    Symptom.LOOKS_ILL,
)
#: Those to ask by name where little urine comes; swelling and the rest show at once.
_WITH_LITTLE: Final = {
    Symptom.LOIN_PAIN: "loin pain",
    Symptom.VOMITING: "vomiting",
    Symptom.LIMB_WEAKNESS: "weak limbs",
    Symptom.SWOLLEN_ABDOMEN: "a swollen abdomen",
}
_HOURS_DAY: Final = 24

_TOLD_AT: Final = {_S: "Very little urine comes. A doctor must look today."}


def urostomy(facts: Facts) -> bool:
    return facts.kind is StomaKind.UROSTOMY


def _ill(facts: Facts) -> bool:
    return facts.feels(*_ILL) or bool(feverish(facts))


def _open(facts: Facts) -> str:
    """What would make too little urine an emergency and was not asked."""
    temperature = ["temperature"] if feverish(facts) is None else []
    return joined([*not_asked(facts, _WITH_LITTLE.items()), *temperature])


# --- too little -----------------------------------------------------------------------------
def no_urine(facts: Facts) -> Verdict | None:
    """By hours; with loin pain any fall to none, with another sign of illness two hours."""
    hours = facts.findings.output.hours_without_output
    if not urostomy(facts) or not hours:
        return None
    painful = facts.feels(Symptom.LOIN_PAIN)
    if hours < SILENT_URO.value and not painful:
        return None
    worse = hours >= SILENT_URO_LONG.value or _ill(facts)
    ask = "" if worse else _open(facts)
    return Verdict(_E if worse else _S, f"No urine for {hours:g} hours.", _AT_SILENT, ask)


def little_urine(facts: Facts) -> Verdict | None:
    """By the volume of a day: under 400 mL, under half of the usual, or little by weight."""
    volume = facts.findings.output.volume_ml_24h
    if not urostomy(facts) or volume is None:
        return None
    least = _least(facts)
    if volume >= least:
        return None
    worse = volume == 0 or _ill(facts)
    found = f"Urine is {volume:g} mL in 24 hours; less than {least:g} is too little here."
    return Verdict(_E if worse else _S, found, _AT_VOLUME, "" if worse else _open(facts))


def _least(facts: Facts) -> float:
    """mL in 24 hours under which it is too little. A usual volume or weight not known adds none."""
    usual, kg = facts.findings.output.usual_ml_24h, weight_now(facts.findings)
    by_usual = 0.0 if usual is None else URINE_OF_USUAL.value * usual
    adult = facts.age_group is AgeGroup.ADULT
    by_weight = URINE_PER_KG.value * _HOURS_DAY * kg if kg is not None and adult else 0.0
    return max(URINE_LITTLE.value, by_usual, by_weight)


def less_urine(facts: Facts) -> bool | None:
    """Less than before. None: neither asked nor measured."""
    output = facts.findings.output
    if facts.feels(Symptom.LITTLE_URINE) or no_urine(facts) or little_urine(facts):
        return True
    asked = facts.asked(Symptom.LITTLE_URINE) is not None
    return False if asked or output.volume_ml_24h is not None else None


def stent_out(facts: Facts) -> Verdict | None:
    """A stent that falls out early: urologist the same day; with less urine an emergency."""
    if not urostomy(facts) or not facts.findings.output.stent_out_early:
        return None
    less = less_urine(facts)
    ask = "does less urine come than before" if less is None else ""
    found = "A stent fell out early" + ("; less urine comes." if less else ".")
    return Verdict(_E if less else _S, found, "output.stent_out_early", ask=ask)


def thin_stream(facts: Facts) -> Verdict | None:
    """Long thin streams instead of short spurts: the stoma lets too little through."""
    seen = UrineSign.THIN_LONG_STREAM in (facts.findings.output.urine_signs or ())
    if not urostomy(facts) or not seen:
        return None
    pains = (Symptom.LOIN_PAIN, Symptom.ABDOMINAL_PAIN, Symptom.RISING_PAIN)
    hurts = facts.feels(*pains, Symptom.CONSTANT_SEVERE_PAIN) or bool(
        facts.findings.output.pain_0_10
    )
    return Verdict(_S if hurts else _D, "Urine comes in long thin streams.", _AT_SIGNS)


# --- infection and acid ---------------------------------------------------------------------
def urine_infection(facts: Facts) -> Verdict | None:
    """Fever or rigors; loin pain with vomiting, or while it is not known how much urine comes."""
    if not urostomy(facts):
        return None
    fever, pain = feverish(facts), facts.feels(Symptom.LOIN_PAIN)
    if fever or facts.feels(Symptom.RIGORS):
        return Verdict(_E, "Fever or rigors with a urostomy.", _AT_PRESENT)
    if not pain:
        return None
    if facts.feels(Symptom.VOMITING) or facts.findings.output.volume_ml_24h is None:
        found = "Loin pain with a urostomy, with vomiting or an unknown amount of urine."
        return Verdict(_E, found, _AT_PRESENT)
    open_ = ["fever, rigors"] if fever is None else []
    open_ += not_asked(facts, ((Symptom.VOMITING, "vomiting"),))
    return Verdict(_S, "Loin pain with a urostomy.", _AT_PRESENT, ask=joined(open_))


def weak_with_urostomy(facts: Facts) -> Verdict | None:
    """Potassium and acid: weak limbs and palpitations, with pain or without."""
    if not urostomy(facts) or not facts.feels(Symptom.LIMB_WEAKNESS, Symptom.PALPITATIONS):
        return None
    return Verdict(_E, "Weak limbs or palpitations with a urostomy.", _AT_PRESENT)


def unwell_with_urostomy(facts: Facts) -> Verdict | None:
    """Acid taken up from urine in the bowel makes sick and tired; so does a kidney that fails."""
    signs = (Symptom.NAUSEA, Symptom.VOMITING, Symptom.TIRED)
    if not urostomy(facts) or not facts.feels(*signs):
        return None
    return Verdict(_S, "Nausea, vomiting or tiredness with a urostomy.", _AT_PRESENT)


def cloudy_urine(facts: Facts) -> Verdict | None:
    """Not mucus that was agreed as usual."""
    seen = UrineSign.CLOUDY in (facts.findings.output.urine_signs or ())
    if not urostomy(facts) or not seen or as_known(facts, BaselineKind.PINK_URINE_OR_MUCUS):
        return None
    return Verdict(_D, "The urine is cloudy.", _AT_SIGNS)


_LOOK_ONCE: Final = "Look once for a kink, a twist or a full pouch, without delay. Flush nothing."

RULES: Final = (
    FlagRule(
        "no_urine",
        "No urine from the urostomy",
        "urologist or emergency department",
        f"{_LOOK_ONCE} Kidney function, potassium and a scan.",
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
        "Fever, rigors or loin pain with a urostomy",
        "urologist or emergency department",
        "Temperature, pulse, blood pressure, kidney function. A specimen from the pouch is "
        "useless: fresh from the stoma, by someone trained. Say whether stents are in or stones "
        "are known.",
        (MEMORY, "urostomynz/pouch_sample", DESIGN),
        urine_infection,
        "Fever or pain in your side needs a doctor now.",
        told_at={_S: "You have pain in your side. A doctor must look today."},
        adult_figures=True,
    ),
    FlagRule(
        "weak_with_urostomy",
        "Weak limbs or palpitations with a urostomy",
        "emergency department",
        "Potassium, acid balance, kidney function, a heart tracing.",
        (DESIGN,),
        weak_with_urostomy,
        "Your blood salts may be wrong. A doctor must look now.",
    ),
    FlagRule(
        "stent_out",
        "Stent out early",
        "urologist",
        "Pull and flush nothing. Count the stents that are left; kidney function.",
        (DESIGN,),
        stent_out,
        "A tube has come out of your stoma. A doctor must look now.",
        told_at={_S: "A tube has come out of your stoma. A doctor must look today."},
        adult_figures=True,
    ),
    FlagRule(
        "thin_stream",
        "Thin long streams of urine",
        "surgeon or urologist",
        "The stoma may be too narrow: a trained clinician examines it. Nothing is put into it.",
        ("urostomynz/thin_stream", DESIGN),
        thin_stream,
        "Your urine comes in a thin stream. A doctor must look today.",
        told_at={_D: "Your urine comes in a thin stream. A doctor will look within days."},
        adult_figures=True,
    ),
    FlagRule(
        "unwell_with_urostomy",
        "Nausea, vomiting or tiredness with a urostomy",
        "physician",
        "Temperature, pulse, breathing (deep breathing counts), kidney function and acid balance.",
        ("urostomynz/acid", DESIGN),
        unwell_with_urostomy,
        "You do not feel well. A doctor must look today.",
    ),
    FlagRule(
        "cloudy_urine",
        "Cloudy urine from a urostomy",
        "prescriber or stoma team",
        "A conduit may be infected without symptoms. A specimen from the pouch is useless: fresh "
        "from the stoma. Treat no dipstick.",
        ("urostomynz/no_symptoms", "urostomynz/pouch_sample", DESIGN),
        cloudy_urine,
        "Your urine is cloudy. The team will look within days.",
    ),
)
