"""The choice step with all it starts from, and what any way of making it must come to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from planning.inputs.findings import Findings, History
from planning.needs import ESSENTIAL, agreed, needs_of
from planning.pipeline import ranked_facts_of
from planning.ranked_facts import RankedFacts
from planning.results.plan import Need
from planning.supplies.admissible import barred
from planning.supplies.options import Option, lifting_barriers, options
from planning.supplies.search import reachable, search
from planning.supplies.worn import Worn, worn_now


class Best(NamedTuple):
    """Essential and other needs left open, and the packed cost: lower is better, in this order."""

    essential: int
    other: int
    cost: int


@dataclass(frozen=True)
class Choice:
    """Needs, and for every group of slots what it may hold (``Option.met``: a bit a need)."""

    situation: RankedFacts
    needs: tuple[Need, ...]
    worn: Worn
    barred: frozenset[str]
    groups: list[list[Option]]

    @property
    def must(self) -> int:
        """A bit for every essential need."""
        return sum(1 << i for i, need in enumerate(self.needs) if need.key in ESSENTIAL)

    @property
    def may(self) -> int:
        """A bit for every other need."""
        return (1 << len(self.needs)) - 1 - self.must


def choice_of(findings: Findings, history: History) -> Choice:
    """Everything up to the choice."""
    now = ranked_facts_of(findings, history)
    worn = worn_now(now.facts)
    not_allowed = barred(now, worn)
    needs = agreed(reachable(needs_of(now), lifting_barriers(now), not_allowed), now)
    groups = options(now, needs, worn, frozenset(not_allowed))
    return Choice(now, needs, worn, frozenset(not_allowed), groups)


def by_search(choice: Choice) -> Best:
    """The planner's own search, the making of its options included."""
    best, _ = search(choice.situation, choice.needs, choice.worn, choice.barred, ESSENTIAL)
    return Best(best.essential, best.other, best.cost.packed())
