"""Leak or rubbing from a prolapsed stoma."""

from planning.causes.rule import ANYWHERE, CLEAR, HINT, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    if not facts.prolapsed:
        return None
    evidence.speaks_for(
        True, CLEAR, "The stoma is prolapsed.", "rnao/prolapse", at="measurement.prolapse"
    )
    gap = facts.worn_gap
    evidence.speaks_for(
        gap is not None and gap.least_mm < 0,
        HINT,
        "The opening in use is too narrow for it.",
        MEMORY,
        at="system.opening_length_mm",
    )
    return ANYWHERE


RULE = CauseRule(
    key="prolapse",
    of=CauseOf.LEAK,
    title="Prolapse",
    weigh=_weigh,
    tell="Look at it lying and standing: does it reduce by itself?",
)
