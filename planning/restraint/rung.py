"""A ladder of steps against one kind of leak, and where on it a person is."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass

from planning.inputs.findings import Material
from planning.ranked_facts import RankedFacts
from planning.results.plan import Need

Makes = Callable[[RankedFacts], tuple[Need, ...]]


@dataclass(frozen=True, slots=True)
class Rung:
    """One step. ``needs``: what it asks of the system (none: it is no supply). ``has``: a system
    holds this step already, or one that goes further. ``by``: of each of these sets of supplies
    it needs one that is open. ``otherwise``: its words for somebody who may not have
    the material ``without``."""

    key: str
    text: str
    has: Callable[[frozenset[str]], bool]
    by: tuple[frozenset[str], ...] = ()
    needs: Makes | None = None
    without: Material = Material.LATEX
    otherwise: str = ""

    def words(self, situation: RankedFacts) -> str:
        """As it is said to this person."""
        other = self.otherwise and situation.keeps_off(self.without)
        return self.otherwise if other else self.text


@dataclass(frozen=True, slots=True)
class Ladder:
    """``enter``: how many first steps are left out for these findings."""

    key: str
    rungs: tuple[Rung, ...]
    enter: Callable[[RankedFacts], int] = lambda _: 0

    def left(
        self, situation: RankedFacts, tried: Iterable[frozenset[str]], barred: Collection[str]
    ) -> tuple[Rung, ...]:
        """Steps still to take, the next one first: none that was worn or tried, each open to this
        person."""
        systems = tuple(tried)
        return tuple(
            rung
            for rung in self.rungs[self.enter(situation) :]
            if not any(rung.has(system) for system in systems)
            and all(kind - frozenset(barred) for kind in rung.by)
        )
