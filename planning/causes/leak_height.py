"""Leak because the stoma is too low to pour clear of the skin."""

from planning.causes.rule import ANYWHERE, CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import DESIGN
from planning.facts.derive import Facts
from planning.facts.height import Height, height_sources, height_words, trouble_height
from planning.inputs.clock import ClockHours
from planning.results.plan import CauseOf

_AT = "measurement.protrusion_mm"
_WEIGHTS = {Height.RETRACTED: STRONG, Height.FLUSH: STRONG, Height.SHORT: CLEAR}


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    height = facts.findings.measurement.protrusion_mm
    if height is None or facts.height not in _WEIGHTS or not facts.troubled:
        return None
    evidence.speaks_for(
        True,
        _WEIGHTS[facts.height],
        f"The stoma's height is {height:g} mm, {height_words(facts.height, height)}; under "
        f"{trouble_height(facts.kind):g} mm leaks are frequent.",
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
