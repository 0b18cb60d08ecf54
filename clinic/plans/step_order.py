"""Steps of a sheet put in another order, or left off: what the technique allows."""

from __future__ import annotations

from collections.abc import Sequence

from clinic.plans.plan_with_decisions import DecidedPlan
from planning.technique.order import SAFETY, broken, must_follow, words_of

__all__ = ["is_safety", "may_swap", "refused", "sheet_steps", "words_of"]


def sheet_steps(decided: DecidedPlan) -> tuple[str, ...]:
    """Keys of the steps that are on the sheet, in the plan's order."""
    return tuple(step.key for step in decided.steps() if step.patient_text)


def is_safety(key: str) -> bool:
    """Whether the sheet may not go without it."""
    return key in SAFETY


def may_swap(first: str, then: str) -> bool:
    """Whether two neighbours may change places."""
    return not must_follow(then, first)


def refused(keys: Sequence[str]) -> tuple[str, ...]:
    """Why these steps may not be in this order, one sentence a pair; () where they may."""
    return tuple(
        f"\N{LEFT DOUBLE QUOTATION MARK}{words_of(later)}\N{RIGHT DOUBLE QUOTATION MARK} must come "
        f"after \N{LEFT DOUBLE QUOTATION MARK}{words_of(earlier)}\N{RIGHT DOUBLE QUOTATION MARK}"
        for earlier, later in broken(keys)
    )
