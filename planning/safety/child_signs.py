"""Signs of dehydration under 16, or of not growing; the figures are a child's own."""

from __future__ import annotations

from typing import Final

from planning.evidence.thresholds import CHILD_DRY_HOURS, CHILD_THIN, CHILD_WASTED
from planning.facts.derive import Facts
from planning.facts.weight import lost_share
from planning.inputs.findings import ChildSign, StomaKind, Symptom
from planning.safety.drying import clear_signs, grave_signs

#: Each an emergency by itself.
GRAVE: Final = {
    ChildSign.NO_WET_NAPPY_6_HOURS: "no wet nappy for hours",
    ChildSign.SLEEPY: "very sleepy",
}
#: Each seen the same day.
CLEAR: Final = {
    ChildSign.FEWER_WET_NAPPIES: "fewer wet nappies",
    ChildSign.SUNKEN_EYES_OR_FONTANELLE: "sunken eyes or fontanelle",
    ChildSign.NO_TEARS: "no tears",
    ChildSign.DRY_MOUTH: "dry mouth",
    ChildSign.COLD_HANDS: "cold hands",
    ChildSign.SLOW_REFILL: "slow refill",
}
_ANY_TIME: Final = float("inf")


def has_sign(facts: Facts, sign: ChildSign) -> bool | None:
    """True, False or None (not asked)."""
    person = facts.findings.person
    if sign in person.child_present:
        return True
    return False if sign in person.child_absent else None


def child_grave(facts: Facts) -> tuple[str, ...]:
    """Each an emergency by itself, in words."""
    felt = [words for sign, words in GRAVE.items() if has_sign(facts, sign)]
    share = lost_share(facts, _ANY_TIME)
    if share is not None and share >= CHILD_WASTED.value:
        felt.append("much weight lost")
    hours = facts.findings.output.hours_without_urine
    bowel = facts.kind is not StomaKind.UROSTOMY
    if bowel and hours is not None and hours >= CHILD_DRY_HOURS.value:
        felt.append("no urine for hours")
    if facts.feels(Symptom.DROWSY) and not has_sign(facts, ChildSign.SLEEPY):
        felt.append("drowsy")
    if facts.feels(Symptom.CONFUSION):
        felt.append("confused")
    return (*felt, *grave_signs(facts))


def child_clear(facts: Facts) -> tuple[str, ...]:
    """Each seen the same day, in words."""
    felt = [words for sign, words in CLEAR.items() if has_sign(facts, sign)]
    share = lost_share(facts, _ANY_TIME)
    if share is not None and CHILD_THIN.value <= share < CHILD_WASTED.value:
        felt.append("weight lost")
    dry = (Symptom.DRY_MOUTH, ChildSign.DRY_MOUTH)
    if facts.feels(dry[0]) and not has_sign(facts, dry[1]):
        felt.append("dry mouth")
    return (*felt, *clear_signs(facts))


def asked_and_absent(facts: Facts) -> bool:
    """Alert, drinking, and every sign of dehydration asked and absent, the weight included."""
    signs = all(has_sign(facts, sign) is False for sign in (*GRAVE, *CLEAR))
    drinks = facts.asked(Symptom.CANNOT_KEEP_FLUIDS) is False
    share = lost_share(facts, _ANY_TIME)
    steady = share is not None and share < CHILD_THIN.value
    return signs and drinks and steady and not child_grave(facts) and not child_clear(facts)


def not_thriving(facts: Facts) -> tuple[str, ...]:
    """Signs of too little sodium, in words."""
    felt = {
        "no or hardly any gain of weight": has_sign(facts, ChildSign.NOT_GAINING),
        "craves salt": has_sign(facts, ChildSign.SALT_CRAVING),
        "tires": facts.feels(Symptom.TIRED),
    }
    return tuple(words for words, holds in felt.items() if holds)
