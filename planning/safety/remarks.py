"""Things to know that are no danger by themselves: agreed baselines compared, medicines named."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import OUTPUT_NEW
from planning.facts.derive import Facts
from planning.inputs.age import AgeGroup
from planning.inputs.findings import BaselineKind, Bleeding, Condition, Medicine, SkinKind
from planning.results.plan import Reason
from planning.safety import medicines
from planning.safety.baselines import comparisons
from planning.safety.flags_bleeding import contact
from planning.safety.vital_signs import anticoagulated

_LIVER: Final = (Condition.LIVER_DISEASE, Condition.CIRRHOSIS, Condition.PORTAL_HYPERTENSION)
_KIDNEY: Final = (Medicine.DIURETIC, Medicine.ACE_INHIBITOR_OR_ARB)


def remarks(facts: Facts) -> tuple[Reason, ...]:
    """Every agreed baseline first: none is used in silence."""
    found = (_target_ends(facts), _of_medicines(facts), _contact_open(facts), _liver(facts))
    return (*comparisons(facts), *(reason for reasons in found for reason in reasons))


def _target_ends(facts: Facts) -> Iterator[Reason]:
    """What would break an agreed target, named again at every visit."""
    if facts.history.baseline(BaselineKind.OUTPUT_TARGET) is None:
        return
    text = (
        "The target no longer holds with: a quarter or 500 mL more for 2 days, less urine than "
        "agreed, 2 kg lost, thirst, cramps in the limbs or dizziness. Repeat it to the person."
    )
    if facts.age_group is AgeGroup.ADULT:
        yield Reason(text, (DESIGN,), "history.baselines")


def _of_medicines(facts: Facts) -> Iterator[Reason]:
    said = (
        (medicines.cranberry(facts), ("urostomytips/cranberry", DESIGN)),
        (medicines.pancaking(facts), (PRACTICE,)),
        (medicines.masked_fever(facts), (PRACTICE,)),
        (_sick_days(facts), ("aceileostomy2018/readmitted", "acediuretics2024/hazard", PRACTICE)),
    )
    for text, sources in said:
        if text:
            yield Reason(text, sources, "person.medicines")


def _sick_days(facts: Facts) -> str:
    """Before there is any trouble: a new ileostomy under kidney medicines."""
    day = facts.findings.stoma.days_since_surgery
    new = day is None or day <= OUTPUT_NEW.value
    found = medicines.named(facts, _KIDNEY)
    if not (found and new and facts.small_bowel and facts.age_group is AgeGroup.ADULT):
        return ""
    return f"New ileostomy under {found}: ask the prescriber for a written plan for sick days."


def _liver(facts: Facts) -> Iterator[Reason]:
    """Without veins it bars nothing that is in use; what presses is not begun without thought."""
    sick = any(facts.has(condition) for condition in _LIVER)
    if sick and not facts.find(SkinKind.DILATED_VEINS) and facts.age_group is AgeGroup.ADULT:
        text = (
            "Liver disease: look for veins round the stoma at each visit. Convexity or a belt is "
            "begun only after the liver team was asked."
        )
        yield Reason(text, (DESIGN,), "person.has")


def _contact_open(facts: Facts) -> Iterator[Reason]:
    """What must be asked before a trace on wiping counts as usual."""
    if facts.findings.measurement.bleeding is not Bleeding.ON_WIPING or contact(facts):
        return
    open_ = {
        "a blood thinner": anticoagulated(facts),
        "low platelets": facts.has(Condition.LOW_PLATELETS),
        "liver disease": facts.has(Condition.LIVER_DISEASE),
    }
    if unknown := [words for words, answer in open_.items() if answer is None]:
        text = f"It bleeds a little on wiping. Ask at this visit: {', '.join(unknown)}."
        yield Reason(text, (DESIGN,), "person.has")
