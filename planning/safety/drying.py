"""Signs of dehydration or loss of salt: those that count by themselves, and those that
count only beside much output. Under 16 what is felt alone counts: urine in mL, pulse and lost kg
have figures for adults. Where the age is not known they count, so that none is missed.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planning.evidence.thresholds import (
    URINE_LITTLE,
    URINE_LOW,
    URINE_NONE,
    WEIGHT_SUDDEN,
    WEIGHT_SUDDEN_DAYS,
    WEIGHT_WEEK,
    WEIGHT_WEEK_DAYS,
    WEIGHT_WEEK_SHARE,
)
from planning.facts.derive import Facts
from planning.facts.weight import lost, lost_share
from planning.inputs.age import AgeGroup
from planning.inputs.findings import StomaKind, Symptom
from planning.safety.vital_signs import pulse_fast

#: Each an emergency by itself; confusion has a baseline of its own and is judged apart.
GRAVE: Final = {
    Symptom.FAINTNESS: "faint or unable to stand",
    Symptom.CANNOT_KEEP_FLUIDS: "cannot keep a rehydration drink down",
    Symptom.LIMB_WEAKNESS: "severe weakness of the limbs",
    Symptom.PALPITATIONS: "palpitations",
}
#: Each enough to be seen the same day.
CLEAR: Final = {
    Symptom.DIZZY_ON_STANDING: "dizzy on standing",
    Symptom.LIMB_CRAMPS: "cramps in the limbs",
}
#: These count only beside an output of 1000 mL or more.
SOFT: Final = {
    Symptom.THIRST: "thirst",
    Symptom.DRY_MOUTH: "a dry mouth",
    Symptom.DARK_URINE: "dark urine",
    Symptom.TIRED: "tiredness",
}


def grave_signs(facts: Facts) -> tuple[str, ...]:
    """Each an emergency by itself, in words."""
    return (*_felt(facts, GRAVE), *(_no_urine(facts) if _grown(facts) else ()))


def clear_signs(facts: Facts) -> tuple[str, ...]:
    """Each enough for the same day; two are an emergency. Little urine counts once."""
    if not _grown(facts):
        little = ("little urine",) if facts.feels(Symptom.LITTLE_URINE) else ()
        return (*_felt(facts, CLEAR), *little)
    fast = ("a fast pulse",) if pulse_fast(facts) else ()
    return (*_felt(facts, CLEAR), *_little_urine(facts), *weight_fall(facts), *fast)


def _grown(facts: Facts) -> bool:
    return facts.age_group is not AgeGroup.CHILD


def soft_signs(facts: Facts) -> tuple[str, ...]:
    """Signs that say something only beside much output."""
    return tuple(_felt(facts, SOFT))


def not_asked(facts: Facts) -> tuple[str, ...]:
    """Signs that were not asked, in words."""
    known = {**GRAVE, Symptom.CONFUSION: "new confusion", **CLEAR, **SOFT}
    open_ = tuple(words for sign, words in known.items() if facts.asked(sign) is None)
    return (*open_, "little urine") if urine_open(facts) else open_


def urine_open(facts: Facts) -> bool:
    """Whether enough urine comes was neither measured nor asked; a urostomy has its own rules."""
    output = facts.findings.output
    if facts.kind is StomaKind.UROSTOMY or output.urine_ml_24h is not None:
        return False
    return facts.asked(Symptom.LITTLE_URINE) is None


def urine_unsplit(facts: Facts) -> bool:
    """Little urine is said, but not how little: the two questions were not asked."""
    output = facts.findings.output
    answered = output.urine_ml_24h is not None or output.hours_without_urine is not None
    return facts.feels(Symptom.LITTLE_URINE) and not answered


def _felt(facts: Facts, signs: dict[Symptom, str]) -> Iterator[str]:
    return (words for sign, words in signs.items() if facts.feels(sign))


def _no_urine(facts: Facts) -> Iterator[str]:
    output = facts.findings.output
    if facts.kind is StomaKind.UROSTOMY:
        return
    hours, volume = output.hours_without_urine, output.urine_ml_24h
    if hours is not None and hours >= URINE_NONE.value:
        yield f"no urine for {hours:g} hours"
    elif volume is not None and volume < URINE_LITTLE.value:
        yield f"urine {volume:g} mL in 24 hours"


def _little_urine(facts: Facts) -> Iterator[str]:
    volume = facts.findings.output.urine_ml_24h
    if facts.kind is not StomaKind.UROSTOMY and volume is not None and volume < URINE_LOW.value:
        yield f"urine {volume:g} mL in 24 hours"
    elif facts.feels(Symptom.LITTLE_URINE):
        yield "little urine"


def weight_fall(facts: Facts) -> Iterator[str]:
    """2 kg in 48 hours, or 3 kg or 5 % in a week."""
    sudden, week = lost(facts, WEIGHT_SUDDEN_DAYS.value), lost(facts, WEIGHT_WEEK_DAYS.value)
    share = lost_share(facts, WEIGHT_WEEK_DAYS.value)
    fast = sudden is not None and sudden >= WEIGHT_SUDDEN.value
    much = week is not None and week >= WEIGHT_WEEK.value
    thin = share is not None and share >= WEIGHT_WEEK_SHARE.value
    if week is not None and (fast or much or thin):
        yield f"{week:.1f} kg lost within a week"
