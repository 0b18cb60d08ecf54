"""Red flags of somebody newly restless or drowsy: it may be the only sign of an illness."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.facts.derive import Facts
from planning.facts.in_words import joined
from planning.inputs.findings import Symptom
from planning.results.plan import Urgency
from planning.safety.flag import FlagRule, Verdict
from planning.safety.signs import not_asked
from planning.safety.vital_signs import vitals_usual


def restless(facts: Facts) -> Verdict | None:
    """Temperature, pulse and drinking usual: within days; unusual or not taken: the same day.
    Drowsy besides has a rule of its own."""
    if not facts.feels(Symptom.RESTLESS):
        return None
    usual, drinks = vitals_usual(facts), facts.asked(Symptom.CANNOT_KEEP_FLUIDS)
    clear = facts.asked(Symptom.CONFUSION)
    if usual and drinks is False and clear is False:
        return Verdict(Urgency.DAYS, "Newly restless; otherwise as usual.", "output.present")
    open_ = {
        "temperature and pulse": usual is None,
        "does the person drink as usual": drinks is None,
        "drowsy or more confused than usual": clear is None,
    }
    ask = ", ".join(words for words, unknown in open_.items() if unknown)
    return Verdict(Urgency.SAME_DAY, "Newly restless.", "output.present", ask=ask)


def drowsy(facts: Facts) -> Verdict | None:
    """Seen the same day; confusion, or a sign of sepsis, makes it an emergency by its own rule."""
    if not facts.feels(Symptom.DROWSY):
        return None
    open_ = ["temperature and pulse"] if vitals_usual(facts) is None else []
    open_ += not_asked(facts, ((Symptom.CONFUSION, "more confused than usual"),))
    return Verdict(Urgency.SAME_DAY, "Newly drowsy.", "output.present", ask=joined(open_))


RULES: Final = (
    FlagRule(
        "drowsy",
        "Newly drowsy",
        "physician",
        "Take temperature, pulse, breathing and blood pressure now; look for infection and "
        "dehydration, and ask which medicines make sleepy.",
        (PRACTICE, DESIGN),
        drowsy,
        "You are sleepier than usual. A doctor must look today.",
        adult_figures=True,
    ),
    FlagRule(
        "restless",
        "Newly restless",
        "physician",
        "Think of a full pouch, sore or itching skin, pain, new carers, infection. No sedation, no "
        "restraint.",
        (PRACTICE, DESIGN),
        restless,
        "The team must look today at why you are restless.",
        within=("drowsy",),
        told_at={Urgency.DAYS: "The team will look within days at why you are restless."},
        adult_figures=True,
    ),
)
