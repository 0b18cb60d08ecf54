"""What to drink and what not, beside every flag of dehydration: to the clinician and on the sheet.

Nothing by mouth goes before everything else. No recipe and no amount without a plan on record.
"""

from __future__ import annotations

from typing import Final

from planning.facts.by_mouth import forbidden_by_mouth
from planning.facts.derive import Facts
from planning.inputs.age import AgeGroup
from planning.inputs.findings import Condition, StomaKind, Symptom
from planning.results.plan import Urgency
from planning.safety.flags_hernia import hernia_trapped
from planning.safety.flags_prolapse import prolapse_trapped
from planning.safety.flags_stoma import bowel_outside

SIP: Final = "Sip rehydration drink if it stays down and no fluid limit is set for you."
SIP_WITHIN: Final = "Sip rehydration drink if it stays down. Keep to the fluid limit set for you."
NO_WATER: Final = "Drink no plain water to catch up."
NOTHING: Final = "Do not eat or drink."
NO_SOLIDS: Final = "Eat no solid food."
#: Every sentence of the sheet.
TOLD: Final = (SIP, SIP_WITHIN, NO_WATER, NOTHING, NO_SOLIDS)

_MAY_BLOCK: Final = (
    Symptom.SEVERE_CRAMPS,
    Symptom.MILD_CRAMPS,
    Symptom.SWOLLEN_ABDOMEN,
    Symptom.SPURTING_OUTPUT,
    Symptom.NO_GAS,
)
_LIMITS: Final = (Condition.KIDNEY_DISEASE, Condition.HEART_FAILURE)


def told(facts: Facts) -> tuple[str, ...]:
    """On the sheet. Under 16 the paediatric team says what to drink."""
    if _nothing(facts):
        return (NOTHING,)
    if facts.age_group is not AgeGroup.ADULT or facts.kind is StomaKind.UROSTOMY:
        return ()
    solids = (NO_SOLIDS,) if facts.feels(*_MAY_BLOCK) else ()
    return (SIP_WITHIN if _limited(facts) else SIP, NO_WATER, *solids)


def said(facts: Facts) -> str:
    """To the clinician."""
    if _nothing(facts):
        return "Nothing by mouth."
    if facts.age_group is not AgeGroup.ADULT:
        return "The paediatric team says what to drink."
    if facts.kind is StomaKind.UROSTOMY:
        return ""
    limit = " Kidney or heart disease: only within the limit set for it." if _limited(facts) else ""
    solids = " Blockage possible: no solid food." if facts.feels(*_MAY_BLOCK) else ""
    return (
        "Rehydration drink in sips while it stays down; little plain water, none to catch up; no "
        f"recipe and no amount without a plan on record.{limit}{solids}"
    )


def _nothing(facts: Facts) -> bool:
    """Vomiting, drinks not kept down, no output with pain, bowel stuck or outside."""
    return forbidden_by_mouth(facts) or _stuck_or_out(facts)


def _stuck_or_out(facts: Facts) -> bool:
    found = (judge(facts) for judge in (hernia_trapped, prolapse_trapped, bowel_outside))
    return any(v is not None and v.urgency is Urgency.EMERGENCY for v in found)


def _limited(facts: Facts) -> bool:
    return any(facts.has(condition) for condition in _LIMITS)
