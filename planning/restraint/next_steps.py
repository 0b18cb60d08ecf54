"""Steps that wait, in words, each with what would trigger it."""

from __future__ import annotations

from typing import Final

from planning.evidence.thresholds import JUDGE_BARRIERS, JUDGE_DAYS
from planning.ranked_facts import RankedFacts
from planning.restraint.rung import Rung
from planning.restraint.staging import Staged
from planning.restraint.which_ladder import ladder_for
from planning.results.plan import NextStep
from planning.supplies.system_choice import SystemChoice
from planning.supplies.worn import worn_before

_IF_IT_LEAKS: Final = (
    f"if it still leaks after {JUDGE_BARRIERS.value:g} barriers or {JUDGE_DAYS.value:g} days, "
    "whichever comes first"
)
_AFTER_THAT: Final = "if that does not hold either, judged the same way"


def later_steps(plan: Staged, situation: RankedFacts) -> tuple[NextStep, ...]:
    """The first is tried next, the others after it."""
    return _in_words(plan.later, situation)


def _in_words(rungs: tuple[Rung, ...], situation: RankedFacts) -> tuple[NextStep, ...]:
    return tuple(
        NextStep(rung.key, _upper(rung.words(situation)), _AFTER_THAT if place else _IF_IT_LEAKS)
        for place, rung in enumerate(rungs)
    )


def later_with(chosen: SystemChoice, supplies: frozenset[str]) -> tuple[NextStep, ...]:
    """The steps that wait where ``supplies`` are worn instead of the ``chosen`` ones: without what
    these hold already, and again with what was to be taken today."""
    situation, proposed = chosen.situation, frozenset(chosen.best.keys)
    ladder = ladder_for(situation)
    if ladder is None or supplies == proposed:
        return chosen.later
    waiting = {step.key for step in chosen.later}
    tried = worn_before(situation.facts, chosen.worn)
    return _in_words(
        tuple(
            rung
            for rung in ladder.left(situation, tried, chosen.barred)
            if not rung.has(supplies) and (rung.key in waiting or rung.has(proposed))
        ),
        situation,
    )


def step_to_ask(plan: Staged, situation: RankedFacts) -> NextStep | None:
    """Today's step where it is no supply: an opinion, a fitting, a trial with the person."""
    rung: Rung | None = plan.rung
    if rung is None or rung.needs is not None:
        return None
    return NextStep(rung.key, _upper(rung.words(situation)), "today")


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]
