"""What must be known under 16 and is not: a weight above all."""

from __future__ import annotations

from typing import Final

from planning.facts.derive import Facts
from planning.facts.missing import RULES, Lack, missing
from planning.facts.weight import weight_now
from planning.inputs.age import AgeGroup
from planning.inputs.findings import ChildSign, Consistency, StomaKind, Symptom
from planning.results.plan import Reason
from planning.safety.child_signs import has_sign

#: Questions of every visit that are about danger, not about fitting.
ABOUT_DANGER: Final = frozenset(
    {
        "measurement.colour",
        "measurement.turgor",
        "measurement.junction",
        "measurement.prolapse",
        "measurement.bleeding",
        "measurement.prolapse[].reducible",
        "skin",
        "skin[].moist",
        "abdomen.bulges",
        "abdomen.bulges[].reducible",
        "output.hours_without_output",
        "output.consistency",
        "output.urine_signs",
        "output.urine_signs_not_asked",
        "output.present:fever",
        "output.present:little_urine",
        "output.present:dizzy_on_standing",
        "output.present:loin_pain",
        "person.sensitivities",
    }
)


def missing_under_16(facts: Facts) -> tuple[Reason, ...]:
    """The weight first, then in the order of the visit: danger alone under 16, all of it where the
    age is not known."""
    child = facts.age_group is AgeGroup.CHILD
    asked = [lack for lack in RULES if lack.key in ABOUT_DANGER or not child]
    return missing(facts, (*DEMANDED, *asked))


def _green_open(facts: Facts) -> bool:
    return facts.feels(Symptom.VOMITING) and has_sign(facts, ChildSign.GREEN_VOMIT) is None


def _volume_open(facts: Facts) -> bool:
    """Soft or formed stool of a colostomy is recorded as times a day instead."""
    output = facts.findings.output
    solid = output.consistency in (Consistency.SOFT, Consistency.FORMED)
    instead = facts.kind is StomaKind.COLOSTOMY and solid
    return output.volume_ml_24h is None and not instead


DEMANDED: Final = (
    Lack("person.weight",
         "Weight and its day are not on record: without them no output can be judged in mL per kg.",
         lambda f: ("person",) if weight_now(f.findings) is None else ()),
    Lack("person.growth", "Growth (the curve of the weight) is not on record.",
         lambda f: ("person",) if has_sign(f, ChildSign.NOT_GAINING) is None else ()),
    Lack("output.volume_of_a_day", "How much comes out in a day is not known.",
         lambda f: ("output",) if _volume_open(f) else ()),
    Lack("output.green_vomit", "Is the vomit green? That is an emergency.",
         lambda f: ("output.present",) if _green_open(f) else ()),
)  # fmt: skip
