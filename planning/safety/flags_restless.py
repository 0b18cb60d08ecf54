"""Red flag of somebody newly restless, or who pulls the pouch off: it may be the only sign."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.facts.derive import Facts
from planning.inputs.findings import Symptom
from planning.results.plan import Urgency
from planning.safety.flag import FlagRule, Verdict
from planning.safety.vital_signs import vitals_usual


def restless(facts: Facts) -> Verdict | None:
    """Temperature, pulse and drinking usual: within days; unusual or not taken: the same day."""
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


RULES: Final = (
    FlagRule(
        "restless",
        "Newly restless",
        "physician",
        "Think of a full pouch, sore or itching skin, pain, new hands, infection. No sedation, no "
        "restraint.",
        (PRACTICE, DESIGN),
        restless,
        "The team must look today at why you are restless.",
        told_at={Urgency.DAYS: "The team will look within days at why you are restless."},
        adult_figures=True,
    ),
)
