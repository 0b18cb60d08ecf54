"""Irritant contact reaction to a supply: barrier, protectant, paste or remover residue."""

from planning.causes.products import contact_findings, suspects, weigh_place, worn_outside
from planning.causes.rule import CLEAR, HINT, CauseRule, Evidence
from planning.evidence.sources import MEMORY, PRACTICE
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    seen = contact_findings(facts)
    if not seen:
        return None
    path = seen[0].path
    weigh_place(seen, evidence)
    evidence.speaks_for(
        suspects(facts) or worn_outside(facts),
        HINT,
        "Products that touch this skin are in use; among referred people 12 of 18 reacted to one.",
        "contactderm/products",
        at="system.accessories",
    )
    stings = any(s.finding.burning or s.finding.pain for s in seen)
    evidence.speaks_for(stings, CLEAR, "It burns or stings.", MEMORY, at=path)
    evidence.speaks_against(
        facts.leaking,
        CLEAR,
        "Effluent gets under the barrier, which explains burning skin more simply.",
        PRACTICE,
        at="system.leak",
    )
    evidence.speaks_against(
        not stings and any(s.finding.itch for s in seen),
        HINT,
        "It itches rather than burns.",
        MEMORY,
        at=path,
    )
    return ClockHours.union(s.finding.hours for s in seen)


RULE = CauseRule(
    key="irritant_contact",
    of=CauseOf.SKIN,
    title="Irritant contact reaction to a product",
    weigh=_weigh,
    tell="Leave off the suspected product for two or three changes and look again.",
)
