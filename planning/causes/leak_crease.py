"""Leak along a crease, scar or dip that reaches the stoma."""

from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY, PRACTICE
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Contour
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    if not facts.findings.abdomen.creases or not facts.troubled:
        return None
    hours = facts.crease_hours
    evidence.speaks_for(
        True,
        HINT,
        f"A crease reaches the stoma{hours.placed()}.",
        "complicationsreview/crease",
        at="abdomen.creases",
    )
    shared = hours & facts.leak_hours
    evidence.speaks_for(
        shared, STRONG, f"The leak follows it ({shared.words()}).", MEMORY, at="system.leak"
    )
    evidence.speaks_against(
        facts.leak_hours and not shared,
        CLEAR,
        "The leak is elsewhere.",
        MEMORY,
        at="system.leak",
    )
    evidence.speaks_for(
        facts.findings.abdomen.contour is Contour.PENDULOUS,
        HINT,
        "The abdomen hangs and deepens folds.",
        PRACTICE,
        at="abdomen.contour",
    )
    return hours


RULE = CauseRule(
    key="crease",
    of=CauseOf.LEAK,
    title="Crease or dip beside the stoma",
    weigh=_weigh,
    tell="Look lying, sitting, standing and bending: which posture opens a channel?",
)
