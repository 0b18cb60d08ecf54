"""A ladder of steps against one kind of leak, and where on it a person stands."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass

from planning.ranked_facts import RankedFacts
from planning.results.plan import Need

Makes = Callable[[RankedFacts], tuple[Need, ...]]


@dataclass(frozen=True, slots=True)
class Rung:
    """One step. ``needs``: what it asks of the system (none: it is no supply). ``has``: a system
    holds this step already, or one that goes further. ``by``: of each of these sets of supplies
    it needs one that is open."""

    key: str
    text: str
    has: Callable[[frozenset[str]], bool]
    by: tuple[frozenset[str], ...] = ()
    needs: Makes | None = None


@dataclass(frozen=True, slots=True)
class Ladder:
    """``enter``: how many first steps are left out for these findings."""

    key: str
    rungs: tuple[Rung, ...]
    enter: Callable[[RankedFacts], int] = lambda _: 0

    def left(
        self, situation: RankedFacts, tried: Iterable[frozenset[str]], barred: Collection[str]
    ) -> tuple[Rung, ...]:
        """Steps still to take, the next one first: above every step that was worn or tried, and
        open to this person."""
        reached = max((self._height(system) for system in tried), default=-1)
        start = max(reached + 1, self.enter(situation))
        return tuple(
            rung for rung in self.rungs[start:] if all(kind - frozenset(barred) for kind in rung.by)
        )

    def _height(self, system: frozenset[str]) -> int:
        return max((i for i, rung in enumerate(self.rungs) if rung.has(system)), default=-1)
