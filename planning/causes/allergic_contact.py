"""Allergic contact dermatitis. Rare: never concluded while there is evidence of a leak."""

from planning.causes.products import contact_findings, reacted_before, weigh_place
from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import SkinKind
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    seen = contact_findings(facts)
    if not seen:
        return None
    path = seen[0].path
    weigh_place(seen, evidence)
    evidence.speaks_for(any(s.finding.itch for s in seen), CLEAR, "It itches.", MEMORY, at=path)
    evidence.speaks_for(
        facts.find(SkinKind.BLISTERS), HINT, "There are blisters or vesicles.", MEMORY, at=path
    )
    evidence.speaks_for(
        reacted_before(facts),
        STRONG,
        "A product in use is one this person has reacted to before.",
        PRACTICE,
        at="person.sensitivities",
    )
    evidence.speaks_against(
        True,
        HINT,
        "True allergy is rare: 0.7 % of people with a stoma, 4.7 % of those patch-tested.",
        "lyon2000spectrum/allergy",
        "patchtest2012/allergy",
    )
    evidence.speaks_against(
        facts.leaking,
        STRONG,
        "Effluent gets under the barrier: allergy cannot be concluded until the leak is stopped.",
        "lyon2000spectrum/allergy",
        "patchtest2012/allergy",
        DESIGN,
        at="system.leak",
    )
    evidence.speaks_against(
        all(s.finding.itch is False for s in seen), CLEAR, "It does not itch.", MEMORY, at=path
    )
    return ClockHours.union(s.finding.hours for s in seen)


RULE = CauseRule(
    key="allergic_contact",
    of=CauseOf.SKIN,
    title="Allergic contact reaction to a product",
    weigh=_weigh,
    tell="Leave off the suspected product; if it settles, ask dermatology for a patch test "
    "with the person's own products.",
)
