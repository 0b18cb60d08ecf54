"""A ladder of steps against one kind of leak, and where on it a person is."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass

from planning.inputs.findings import Material
from planning.ranked_facts import RankedFacts
from planning.results.plan import Need
from planning.supplies.catalogue import CONVEX

Makes = Callable[[RankedFacts], tuple[Need, ...]]


@dataclass(frozen=True, slots=True)
class Rung:
    """One step. ``needs``: what it asks of the system (none: it is no supply). ``has``: a system
    holds this step already, or one that goes further. ``by``: of each of these sets of supplies
    it needs one that is open. ``or_else``: what it asks where ``needs`` cannot be met.
    ``unless``: it is left out where one of these is open. ``latex_free``: its words for somebody
    who may have no latex. ``operation``: it leads to one."""

    key: str
    text: str
    has: Callable[[frozenset[str]], bool]
    by: tuple[frozenset[str], ...] = ()
    needs: Makes | None = None
    or_else: Makes | None = None
    unless: frozenset[str] = frozenset()
    latex_free: str = ""
    operation: bool = False

    def words(self, situation: RankedFacts) -> str:
        """As it is said to this person."""
        free = self.latex_free and situation.keeps_off(Material.LATEX)
        return self.latex_free if free else self.text

    def ways(self, situation: RankedFacts) -> tuple[tuple[Need, ...], ...]:
        """What it may ask, the first choice first."""
        return tuple(ask(situation) for ask in (self.needs, self.or_else) if ask is not None)


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
        person. Where the step at which one enters may not be taken, none before it is left out,
        nor is one that a dome stood for which may not be worn any more."""
        closed = frozenset(barred)
        gone = CONVEX if closed >= CONVEX else frozenset()
        systems = [system - gone for system in tried]
        start = self.enter(situation)
        first = start if _open(self.rungs[start], closed) else 0
        return tuple(
            rung
            for rung in self.rungs[first:]
            if not any(rung.has(system) for system in systems) and _open(rung, closed)
        )


def _open(rung: Rung, barred: frozenset[str]) -> bool:
    return all(kind - barred for kind in rung.by) and rung.unless <= barred
