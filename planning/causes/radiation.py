"""Skin change inside a field of radiotherapy."""

from planning.causes.rule import CLEAR, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Condition, SkinKind
from planning.results.plan import CauseOf

_KINDS = (SkinKind.ERYTHEMA, SkinKind.EROSION, SkinKind.STRIPPING)


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    seen = facts.find(*_KINDS)
    if not seen or not facts.has(Condition.RADIOTHERAPY_ABDOMEN):
        return None
    evidence.speaks_for(
        True, CLEAR, "The abdomen is or was treated with radiation.", MEMORY, at="person.has"
    )
    return facts.hours_of(*_KINDS)


RULE = CauseRule(
    key="radiation",
    of=CauseOf.SKIN,
    title="Radiation skin change",
    weigh=_weigh,
    tell="Ask the oncology team where the field lies.",
)
