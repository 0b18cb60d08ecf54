"""The child who thrives with what is worn: nothing is changed, and the team goes on planning."""

from __future__ import annotations

from planning.evidence.thresholds import FOLLOW_CHILD, FOLLOW_INFANT, FOLLOW_TODDLER, Threshold
from planning.facts.derive import Facts
from planning.facts.weight import weight_now
from planning.inputs.age import AgeGroup
from planning.inputs.findings import ChildSign, Consistency, StomaKind
from planning.ranked_facts import RankedFacts
from planning.safety.child_signs import has_sign
from planning.safety.flags_children_output import per_kg
from planning.safety.unsettled import unsettled


def thrives(situation: RankedFacts) -> bool:
    """No flag, nothing unusual, sound skin, no leak; weight, growth and output known. Soft or
    formed stool of a colostomy stands for the output."""
    facts = situation.facts
    return (
        facts.age_group is AgeGroup.CHILD
        and not situation.flags
        and not unsettled(facts)
        and facts.skin_clear is True
        and _no_leak(facts)
        and weight_now(facts.findings) is not None
        and has_sign(facts, ChildSign.NOT_GAINING) is False
        and _output_known(facts)
    )


def _no_leak(facts: Facts) -> bool:
    logged = facts.wear is not None and facts.wear.changes > 0 and not facts.wear.leaks
    return facts.leaking is False or (facts.leaking is None and logged)


def _output_known(facts: Facts) -> bool:
    solid = facts.findings.output.consistency in (Consistency.SOFT, Consistency.FORMED)
    return per_kg(facts) is not None or (facts.kind is StomaKind.COLOSTOMY and solid)


def next_look(facts: Facts) -> Threshold:
    """A stoma that grows is measured again: weekly for a baby (how many months old is not
    recorded), monthly up to the second birthday, then at the child's review."""
    years = facts.findings.person.age_years or 0
    if years == 0:
        return FOLLOW_INFANT
    return FOLLOW_TODDLER if years == 1 else FOLLOW_CHILD
