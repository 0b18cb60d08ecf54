"""Pressure injury from convexity, a belt or a rigid plate."""

from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.facts.derive import Facts
from planning.facts.harmless import harmless
from planning.geometry.barrier import BELT_LINE
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Accessory, SkinKind
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    marks = tuple(
        s for s in facts.find(SkinKind.PRESSURE_MARK, SkinKind.BRUISE) if not harmless(s.finding)
    )
    ulcers = facts.find(SkinKind.ULCER)
    # Known of both: an unread profile or belt may press.
    nothing_presses = facts.wears_convex is False and facts.wears(Accessory.BELT) is False
    if not marks and (not ulcers or nothing_presses):
        return None
    seen = marks + ulcers
    hours = ClockHours.union(s.finding.hours for s in seen)
    path = seen[0].path
    evidence.speaks_for(
        marks, STRONG, "A lasting mark or bruise in the shape of a device.", MEMORY, at=path
    )
    evidence.speaks_for(ulcers, HINT, "There is an ulcer under the system.", MEMORY, at=path)
    evidence.speaks_for(
        facts.wears_convex,
        CLEAR,
        "Convexity is in use.",
        "pressure2007/causes",
        at="system.profile",
    )
    evidence.speaks_for(
        facts.wears(Accessory.BELT) and hours & BELT_LINE,
        CLEAR,
        "A belt is in use and pulls at 3 and 9 o'clock.",
        "pressure2007/belt_pull",
        at="system.accessories",
    )
    evidence.speaks_for(
        facts.bulging, HINT, "A bulge presses from below.", MEMORY, at="abdomen.bulges"
    )
    evidence.speaks_for(any(s.finding.pain for s in seen), HINT, "It hurts.", MEMORY, at=path)
    evidence.speaks_against(
        nothing_presses,
        STRONG,
        "Neither convexity nor a belt presses here.",
        MEMORY,
        at="system.profile",
    )
    evidence.speaks_against(
        facts.find(SkinKind.UNDERMINED_ULCER),
        CLEAR,
        "An undermined edge points elsewhere.",
        MEMORY,
    )
    return hours


RULE = CauseRule(
    key="pressure_injury",
    of=CauseOf.SKIN,
    title="Pressure injury",
    weigh=_weigh,
    tell="Lay the used barrier and belt over the mark: does it match their hardest part?",
)
