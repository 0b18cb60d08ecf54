"""Every step tried: another product is no answer."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.recommendations.situations.last_weeks import last_weeks
from planning.recommendations.situations.rule import Situation
from planning.results.plan import Urgency
from planning.supplies.system_choice import SystemChoice

_SURGEON: Final = "surgeon"


def _all_tried(chosen: SystemChoice) -> bool:
    """No step is left that is a supply, after at least one that failed."""
    step, history = chosen.step, chosen.situation.facts.history
    failed = any(trial.helped is False for trial in history.trials)
    if step is None or not failed or last_weeks(chosen.situation.facts):
        return False
    return step.key == _SURGEON or [later.key for later in chosen.later] == [_SURGEON]


def _surgeon_after(chosen: SystemChoice) -> bool:
    return _all_tried(chosen) and chosen.step is not None and chosen.step.key != _SURGEON


ROWS: Final = (
    Situation(
        "life_asked_about",
        "Eating, sleep and supplies asked about",
        "steps failed and none is left but the surgeon's opinion",
        _all_tried,
        "Ask about eating, sleep and whether the supplies last",
        "It leaks in spite of every step.",
        (PRACTICE,),
        at="wear",
    ),
    Situation(
        "surgeon_after_all",
        "The surgeon's opinion on revision",
        "steps failed, and the one left before the surgeon's opinion is no supply",
        _surgeon_after,
        "an opinion on revision, with wear log and photos; the best of what was tried stays "
        "until then",
        "It leaks in spite of every step.",
        (PRACTICE, DESIGN),
        at="wear",
        who="Surgeon",
        within=Urgency.TWO_WEEKS,
    ),
)
