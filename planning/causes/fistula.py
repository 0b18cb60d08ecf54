"""A second opening that lets effluent out beside the stoma."""

from planning.causes.rule import HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Condition, SkinKind
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    seen = facts.find(SkinKind.FISTULA)
    if not seen:
        return None
    evidence.speaks_for(
        True, STRONG, "Effluent comes from an opening beside the stoma.", MEMORY, at=seen[0].path
    )
    evidence.speaks_for(
        facts.has(Condition.INFLAMMATORY_BOWEL_DISEASE),
        HINT,
        "Inflammatory bowel disease makes it more likely.",
        MEMORY,
        at="person.has",
    )
    return facts.hours_of(SkinKind.FISTULA)


RULE = CauseRule(
    key="fistula",
    of=CauseOf.SKIN,
    title="Fistula beside the stoma",
    weigh=_weigh,
    tell="Wipe the spot dry and watch: does stool or urine well up from it?",
)
