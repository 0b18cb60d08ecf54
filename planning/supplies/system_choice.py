"""The chosen system with everything that led to it: what wording and technique work from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from planning.facts.change_interval import ChangeInterval, change_interval, decided_interval
from planning.facts.derive import Facts
from planning.ranked_facts import RankedFacts
from planning.results.plan import Dimensions, Need, NextStep, Reason
from planning.supplies.catalogue import CONVEX, SUPPLIES, Slot
from planning.supplies.opening_size import UNKNOWN_OPENING, OpeningVerdict
from planning.supplies.search import Combination, meets_map, unmet_needs
from planning.supplies.worn import Worn


def is_new_system(supplies: frozenset[str], worn: Worn, facts: Facts) -> bool:
    """Barrier, its material or its build is another than the one worn until now."""
    return any(_is_new(key, worn, facts) for key in supplies)


def opening_kept(
    verdict: OpeningVerdict, worn: Worn, supplies: frozenset[str]
) -> OpeningVerdict | None:
    """The verdict on the opening in use, unless a ready-cut one takes its place."""
    new_pre_cut = "pre_cut" in supplies and "pre_cut" not in worn.keys
    return None if new_pre_cut else verdict


def _is_new(key: str, worn: Worn, facts: Facts) -> bool:
    slot = SUPPLIES[key].slot
    if slot in (Slot.BARRIER, Slot.PIECES):
        # What was not recorded is not known to be another.
        return bool(worn.in_slot(slot)) and key not in worn.keys
    # No field says what is worn of these: the last plan does.
    last = facts.history.last_plan
    return slot in (Slot.MATERIAL, Slot.WEAR) and (last is None or key not in last.supplies)


@dataclass(frozen=True)
class SystemChoice:
    """``barred``: every supply that may not be chosen, with the reasons.

    ``held_back``: what the last gate took out; empty unless a rule is missing from the table.
    ``kept``: the system in use stays just as it is. ``opening``: what becomes of the opening in
    use. ``corrections`` and ``today``: parts changed because they harm, and as this visit's step.
    ``later``: steps that wait, in order; ``step``: one taken today that is no supply. ``waits``:
    the last change is still on trial. ``fixed``: supplies that the clinician put in the place of
    others; ``day``: the latest change day they set, None: the plan's own.
    """

    situation: RankedFacts
    needs: tuple[Need, ...]
    worn: Worn
    barred: Mapping[str, tuple[Reason, ...]]
    best: Combination
    runner_up: Combination | None
    sizes: Dimensions
    held_back: frozenset[str] = frozenset()
    kept: bool = False
    opening: OpeningVerdict = UNKNOWN_OPENING
    corrections: frozenset[str] = frozenset()
    today: frozenset[str] = frozenset()
    later: tuple[NextStep, ...] = ()
    step: NextStep | None = None
    waits: bool = False
    fixed: frozenset[str] = frozenset()
    day: float | None = None

    @cached_property
    def keys(self) -> tuple[str, ...]:
        """The supplies to name. The barrier of a system that was not recorded is left open, if
        nothing is in favour of any kind."""
        return tuple(
            key
            for key in self.best.keys
            if SUPPLIES[key].slot is not Slot.BARRIER
            or self.worn.possible
            or key in self.fixed
            or self.met_by(key)
        )

    @cached_property
    def supplies(self) -> frozenset[str]:
        return frozenset(self.keys)

    @property
    def barrier(self) -> str | None:
        """The barrier chosen; None where nothing is in favour of any kind."""
        return next((k for k in self.keys if SUPPLIES[k].slot is Slot.BARRIER), None)

    @property
    def convex(self) -> bool:
        return bool(self.supplies & CONVEX)

    @cached_property
    def wear(self) -> ChangeInterval:
        """How long one barrier may stay and is likely to."""
        facts, extended = self.situation.facts, "extended_wear" in self.supplies
        if self.day is not None:
            return decided_interval(self.day)
        return change_interval(facts, new_system=self.new_system, extended=extended)

    @cached_property
    def new_system(self) -> bool:
        """Barrier, its material or its build is another than the one worn until now: what the
        log says of the old one does not hold for it."""
        return is_new_system(frozenset(self.keys), self.worn, self.situation.facts)

    @cached_property
    def unmet(self) -> tuple[Need, ...]:
        return unmet_needs(self.best, self.needs)

    @cached_property
    def _met_by(self) -> Mapping[str, tuple[Need, ...]]:
        return meets_map(self.best.keys, self.needs, self.situation)

    @property
    def cut_by_helper(self) -> bool:
        """No ready-cut opening serves, and these hands or eyes should not cut."""
        return any(need.key == "no_cutting" for need in self.unmet)

    def met_by(self, key: str) -> tuple[Need, ...]:
        """Needs that one chosen supply serves."""
        return self._met_by[key]

    def started(self, key: str) -> bool:
        """Chosen, and not worn until now."""
        return key in self.supplies and key not in self.worn.keys
