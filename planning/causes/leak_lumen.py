"""Leak on the side to which the lumen points, or all along a lumen at skin level."""

from planning.causes.rule import ANYWHERE, CLEAR, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import LumenPosition
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    m = facts.findings.measurement
    if m.lumen in (None, LumenPosition.CENTRE) or not facts.troubled:
        return None
    side = ANYWHERE if m.lumen_hour is None else ClockHours.of(m.lumen_hour).widened()
    evidence.speaks_for(
        m.lumen is LumenPosition.SKIN_LEVEL,
        CLEAR,
        "The lumen opens at skin level.",
        "barrierfit2022/lumen",
        at="measurement.lumen",
    )
    evidence.speaks_for(
        m.lumen is LumenPosition.OFF_CENTRE,
        CLEAR,
        f"The lumen lies off-centre, towards {m.lumen_hour} o'clock.",
        "barrierfit2022/lumen",
        at="measurement.lumen_hour",
    )
    evidence.speaks_for(
        side & facts.leak_hours, STRONG, "The leak is on that side.", MEMORY, at="system.leak"
    )
    evidence.speaks_against(
        side and facts.leak_hours and not side & facts.leak_hours,
        CLEAR,
        "The leak is on another side.",
        MEMORY,
        at="system.leak",
    )
    return side


RULE = CauseRule(
    key="lumen_position",
    of=CauseOf.LEAK,
    title="Lumen off-centre or at skin level",
    weigh=_weigh,
    tell="Watch it work for a minute: to which hour does it pour?",
)
