"""The well-fitting system: change nothing."""

from __future__ import annotations

from planning.chosen import Chosen
from planning.dimension import stoma_size
from planning.missing import missing
from planning.notices import notices
from planning.plan import (
    Change,
    Plan,
    Reason,
    Recommendation,
)
from planning.quantities import quantities
from planning.rule_set import RULE_SET
from planning.safety.call_when import call_when
from planning.safety.follow_up import leave_alone_follow_up
from planning.situation import Situation
from planning.sources import PRACTICE
from planning.supplies.catalogue import SUPPLIES
from planning.technique import technique

_WORKS = Reason(
    "The used barrier came off intact, the skin is sound and nothing leaks.",
    (PRACTICE,),
    "system.leak",
)


def fits_well(situation: Situation, chosen: Chosen) -> bool:
    """No red flag, sound skin, a barrier read and intact, and nothing worn that is hazardous."""
    facts = situation.facts
    gap = facts.worn_gap
    cuts = gap is not None and gap.least_mm < 0
    return (
        facts.works is True
        and not situation.flags
        and not cuts
        and chosen.worn.keys <= chosen.supplies | _alternatives(chosen)
        and not set(chosen.barred) & chosen.worn.others
    )


def _alternatives(chosen: Chosen) -> frozenset[str]:
    """Barriers that the record cannot tell apart count as the one chosen among them."""
    return chosen.worn.possible if chosen.worn.possible & chosen.supplies else frozenset()


def kept_plan(situation: Situation, chosen: Chosen) -> Plan:
    """Keep everything; routine follow-up."""
    again = leave_alone_follow_up(situation)
    presses = chosen.convex or "belt" in chosen.supplies
    kept = tuple(key for key in chosen.keys if key in chosen.worn.keys)
    amounts = quantities(chosen, again.in_days)
    sizes = chosen.sizes if situation.facts.outline else stoma_size(situation.facts)
    return Plan(
        rule_set=RULE_SET,
        urgency=situation.urgency,
        headline="A good fit: change nothing",
        leave_alone=True,
        red_flags=(),
        causes=situation.causes,
        needs=(),
        recommendations=tuple(_keep(key) for key in kept),
        runner_up=None,
        dimensions=sizes,
        steps=technique(chosen),
        quantities=amounts,
        follow_up=again,
        call_when=call_when(situation, presses=presses),
        notices=notices(situation),
        missing=missing(situation.facts),
        supplies=kept,
    )


def _keep(key: str) -> Recommendation:
    supply = SUPPLIES[key]
    return Recommendation(
        key=key,
        kind=supply.kind,
        change=Change.KEEP,
        text=f"Keep: {supply.name}",
        because=(_WORKS,),
        patient_text=f"Keep using: {supply.patient_name}.",
    )
