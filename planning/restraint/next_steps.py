"""Steps that wait, in words, each with what would trigger it."""

from __future__ import annotations

from typing import Final

from planning.evidence.thresholds import JUDGE_BARRIERS, JUDGE_DAYS
from planning.ranked_facts import RankedFacts
from planning.restraint.rung import Rung
from planning.restraint.staging import Staged
from planning.results.plan import NextStep

_IF_IT_LEAKS: Final = (
    f"if it still leaks after {JUDGE_BARRIERS.value:g} barriers or {JUDGE_DAYS.value:g} days, "
    "whichever comes first"
)
_AFTER_THAT: Final = "if that does not hold either, judged the same way"


def later_steps(plan: Staged, situation: RankedFacts) -> tuple[NextStep, ...]:
    """The first is tried next, the others after it."""
    return tuple(
        NextStep(rung.key, _upper(rung.words(situation)), _AFTER_THAT if place else _IF_IT_LEAKS)
        for place, rung in enumerate(plan.later)
    )


def step_to_ask(plan: Staged, situation: RankedFacts) -> NextStep | None:
    """Today's step where it is no supply: an opinion, a fitting, a trial with the person."""
    rung: Rung | None = plan.rung
    if rung is None or rung.needs is not None:
        return None
    return NextStep(rung.key, _upper(rung.words(situation)), "today")


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]
