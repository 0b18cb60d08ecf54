"""When to change is said once: by a day, by the day kept until now, or a day sooner."""

from __future__ import annotations

from planning.facts.change_day import Says
from planning.supplies.system_choice import SystemChoice


def melts_early(chosen: SystemChoice) -> bool:
    """The used barrier melted and let nothing under: a day sooner. Not beside a day that is set,
    nor for the one leak of a system that holds."""
    facts = chosen.situation.facts
    system = facts.findings.system
    if system is None or facts.occasional or chosen.wear.limit is not None:
        return False
    return bool(system.erosion) and system.leak is not None and not system.leak


def keeps_own_day(chosen: SystemChoice) -> bool:
    """Barriers came off early and the log is too short to set another day."""
    log = chosen.wear.log
    too_few = log is not None and log.says is Says.TOO_FEW
    return too_few and chosen.wear.limit is None and not melts_early(chosen)
