"""Dilated veins round the stoma. A normal look does not exclude them in liver disease."""

from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Bleeding, Condition, SkinKind
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    veins = facts.find(SkinKind.DILATED_VEINS)
    liver = facts.has(Condition.LIVER_DISEASE)
    if not veins and not liver:
        return None
    evidence.speaks_for(
        veins,
        STRONG,
        "A blue-purple ring or dilated veins run out from the stoma.",
        "varicesreview/look",
        "parastomalvarices2020/look",
        at=veins[0].path if veins else "",
    )
    evidence.speaks_for(
        liver,
        CLEAR,
        "Liver disease is known: a normal look does not exclude varices.",
        "varicesreview/hidden",
        "strauss2014/hidden",
        at="person.has",
    )
    evidence.speaks_for(
        facts.small_bowel,
        HINT,
        "Most reported cases had an ileostomy (72 %).",
        "varicesreview/ileostomy",
        at="stoma.kind",
    )
    evidence.speaks_for(
        facts.findings.measurement.bleeding
        in (Bleeding.OOZE_AT_JUNCTION, Bleeding.SEVERAL_EMPTIES, Bleeding.SPURTING_OR_UNSTOPPED),
        HINT,
        "It bleeds.",
        "varicesreview/bleed",
        at="measurement.bleeding",
    )
    return facts.hours_of(SkinKind.DILATED_VEINS)


RULE = CauseRule(
    key="varices",
    of=CauseOf.SKIN,
    title="Varices round the stoma",
    weigh=_weigh,
    tell="Press on the purple skin: does it blanch? Ask about liver disease.",
)
