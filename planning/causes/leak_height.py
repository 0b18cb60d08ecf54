"""Leak because the stoma is too low to pour clear of the skin."""

from planning.causes.rule import ANYWHERE, CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import DESIGN
from planning.facts.derive import Facts
from planning.facts.height import Height, height_sources, trouble_height
from planning.inputs.clock import ClockHours
from planning.results.plan import CauseOf

_AT = "measurement.protrusion_mm"
_WORDS = {
    Height.RETRACTED: ("below the skin", STRONG),
    Height.FLUSH: ("level with the skin", STRONG),
    Height.SHORT: ("shorter than this kind of stoma needs", CLEAR),
}


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    if facts.height not in _WORDS or not facts.troubled:
        return None
    words, weight = _WORDS[facts.height]
    height = facts.findings.measurement.protrusion_mm
    evidence.speaks_for(
        True,
        weight,
        f"The stoma's height is {height:g} mm, {words}; under {trouble_height(facts.kind):g} mm "
        "leaks are frequent.",
        *height_sources(facts.kind),
        at=_AT,
    )
    evidence.speaks_for(facts.wears_convex is False, HINT, "A flat barrier is in use.", DESIGN)
    return ANYWHERE


RULE = CauseRule(
    key="low_stoma",
    of=CauseOf.LEAK,
    title="Stoma too low",
    weigh=_weigh,
    tell="Measure the height lying and sitting, and note the lower.",
)
