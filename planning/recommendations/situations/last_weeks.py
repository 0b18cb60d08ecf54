"""The last weeks of life: comfort leads."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import PRACTICE
from planning.facts.derive import Facts
from planning.inputs.findings import Condition
from planning.recommendations.situations.rule import Situation
from planning.results.plan import Urgency
from planning.supplies.system_choice import SystemChoice

#: Advice that would ask for measuring, counting or surgery for its own sake.
_SPARED: Final = frozenset(
    {"measure_weekly", "wear_interval", "wear_as_now", "early_leak_cause", "log_next_ten",
     "change_sooner",
     "step_surgeon"}
)  # fmt: skip
_WHY: Final = "Last weeks of life: comfort comes before completeness."


def last_weeks(facts: Facts) -> bool:
    """Marked as the last weeks of life."""
    return facts.has(Condition.LAST_WEEKS_OF_LIFE) is True


def spared(chosen: SystemChoice) -> frozenset[str]:
    """Keys of advice that is not given now."""
    return _SPARED if last_weeks(chosen.situation.facts) else frozenset()


def _holds(chosen: SystemChoice) -> bool:
    return last_weeks(chosen.situation.facts)


ROWS: Final = (
    Situation(
        "comfort_first",
        "Comfort first, longer wear",
        "somebody lives the last weeks of life",
        _holds,
        "Comfort is the aim: a gentle system that may stay on longer, changed for a leak or "
        "soreness, not by habit",
        _WHY,
        (PRACTICE,),
        "Change it when it leaks or feels sore, not by habit.",
        "person.has",
    ),
    Situation(
        "comfort_carer",
        "The carer is taught; nothing for its own sake",
        "somebody lives the last weeks of life",
        _holds,
        "Teach the carer who changes it; no weighing, blood tests, measuring or surgery for their "
        "own sake",
        _WHY,
        (PRACTICE,),
        "Let us show your helper how to change it.",
        "person.has",
    ),
    Situation(
        "palliative_team",
        "The palliative team knows",
        "somebody lives the last weeks of life",
        _holds,
        "soreness and pain at changes, and who helps; a danger sign follows the agreed care plan",
        _WHY,
        (PRACTICE,),
        at="person.has",
        who="Palliative team",
        within=Urgency.DAYS,
    ),
)
