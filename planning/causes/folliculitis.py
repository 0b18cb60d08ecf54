"""Inflamed hair roots under the adhesive."""

from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Accessory, SkinKind
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    seen = facts.find(SkinKind.HAIR_PUSTULES)
    if not seen:
        return None
    path = seen[0].path
    evidence.speaks_for(
        True, STRONG, "Red dots or pustules, each on a hair.", "folliculitis/look", at=path
    )
    evidence.speaks_for(
        facts.wears(Accessory.ADHESIVE_REMOVER) is False,
        HINT,
        "No adhesive remover is used: hairs are pulled.",
        "folliculitis/look",
        at="system.accessories",
    )
    evidence.speaks_against(
        facts.find(SkinKind.SATELLITES), CLEAR, "Spots also lie between the hairs.", MEMORY
    )
    return facts.hours_of(SkinKind.HAIR_PUSTULES)


RULE = CauseRule(
    key="folliculitis",
    of=CauseOf.SKIN,
    title="Inflamed hair roots (folliculitis)",
    weigh=_weigh,
    tell="Look with a lens: is every spot centred on a hair? Ask how hair is removed.",
)
