"""Inflammation under the barrier that no leak, product or infection explains."""

from planning.causes.rule import HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import SkinKind
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    red = facts.find(SkinKind.ERYTHEMA)
    if not red or facts.leaking is not False:
        return None
    evidence.speaks_for(
        True,
        HINT,
        "No leak was found; 15 % of skin disease at a stoma stays unexplained.",
        "lyon2000spectrum/unexplained",
        at="system.leak",
    )
    evidence.speaks_against(
        facts.find(SkinKind.SATELLITES) or any(s.finding.product_outline for s in red),
        STRONG,
        "There are signs of another cause.",
        MEMORY,
    )
    return facts.hours_of(SkinKind.ERYTHEMA)


RULE = CauseRule(
    key="unexplained",
    of=CauseOf.SKIN,
    title="Inflammation, no cause found",
    weigh=_weigh,
    tell="Exclude leak, product and yeast first; then ask dermatology.",
)
