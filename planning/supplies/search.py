"""The choice: the best of all admissible combinations, one supply or none from every slot.

Order: no hazard > essential needs met > other needs met > fewest changes > fewest items > least
effort and pressure. Costs only add up, so the slots can be gone through one after the other,
keeping for each set of needs met the cheapest ways there: nothing that could still win is dropped.
An option that meets no more needs at no less cost than another of its slot never earns its place.
"""

from __future__ import annotations

import heapq
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import reduce
from itertools import product
from typing import Final, NamedTuple

from planning.findings import Ability, Person
from planning.needs import ESSENTIAL
from planning.plan import Need
from planning.situation import Situation
from planning.supplies.catalogue import CATALOGUE, CONVEX, SUPPLIES, Slot, Supply
from planning.supplies.trials import proven, stronger_than_failed
from planning.supplies.worn import Worn

#: Slots chosen together because one supply calls for the other.
_GROUPS: Final[tuple[tuple[Slot, ...], ...]] = tuple(
    (Slot.POWDER, Slot.PROTECTANT) if slot is Slot.POWDER else (slot,)
    for slot in Slot
    if slot is not Slot.PROTECTANT
)
_IN_SLOT: Final = {slot: tuple(s for s in CATALOGUE if s.slot is slot) for slot in Slot}
_PLACE: Final = {supply.key: i for i, supply in enumerate(CATALOGUE)}
_KEPT: Final = 2


class Cost(NamedTuple):
    """What is kept low, in this order."""

    changes: int
    items: int
    effort: int
    place: int

    def packed(self) -> int:
        """One number that compares and adds like the four (each stays far below its limit)."""
        return ((self.changes * 64 + self.items) * 1024 + self.effort) * 4096 + self.place


def unpacked(packed: int) -> Cost:
    """The four figures in a packed cost or in a sum of packed costs."""
    rest, place = divmod(packed, 4096)
    rest, effort = divmod(rest, 1024)
    changes, items = divmod(rest, 64)
    return Cost(changes, items, effort, place)


class Option(NamedTuple):
    """What some slots may hold: the packed cost, the supplies, and a bit for each need met."""

    cost: int
    keys: tuple[str, ...]
    met: int


@dataclass(frozen=True, slots=True)
class Combination:
    """A whole system. ``essential`` and ``other`` count the needs left unmet."""

    keys: tuple[str, ...]
    met: int
    cost: Cost
    essential: int
    other: int

    def of(self, supplies: frozenset[str]) -> Combination:
        """This combination held to ``supplies``, should the last gate have changed it."""
        keys = tuple(key for key in _PLACE if key in supplies)
        return self if set(keys) == set(self.keys) else replace(self, keys=keys)


def search(
    situation: Situation, needs: tuple[Need, ...], worn: Worn, barred: Iterable[str]
) -> tuple[Combination, Combination | None]:
    """The best combination, and the next best whose every item earns its place."""
    groups = [undominated(g) for g in options(situation, needs, worn, frozenset(barred))]
    groups.sort(key=len)
    reached = reduce(_extend, groups, [Option(0, (), 0)])
    must = _bits(needs, essential=True)
    may = _bits(needs, essential=False)

    def order(way: Option) -> tuple[int, int, int, tuple[str, ...]]:
        return (must & ~way.met).bit_count(), (may & ~way.met).bit_count(), way.cost, way.keys

    ranked = heapq.nsmallest(2, reached, key=order)
    combinations = [_combination(way, must, may) for way in ranked]
    return combinations[0], combinations[1] if len(combinations) > 1 else None


def _bits(needs: tuple[Need, ...], *, essential: bool) -> int:
    return sum(1 << i for i, need in enumerate(needs) if (need.key in ESSENTIAL) is essential)


def _combination(way: Option, must: int, may: int) -> Combination:
    return Combination(
        keys=tuple(sorted(way.keys, key=_PLACE.__getitem__)),
        met=way.met,
        cost=unpacked(way.cost),
        essential=(must & ~way.met).bit_count(),
        other=(may & ~way.met).bit_count(),
    )


def options(
    situation: Situation, needs: tuple[Need, ...], worn: Worn, barred: frozenset[str]
) -> list[list[Option]]:
    """For every group of slots, everything it may hold."""
    effort = _effort_of(situation.facts.findings.person)
    kept = proven(situation.facts.history)
    lifting = lifting_barriers(situation)
    return [
        [
            reduce(
                _joined, (_option(s, slot, needs, lifting, worn, kept, effort) for s, slot in row)
            )
            for row in _rows(group, barred)
        ]
        for group in _GROUPS
    ]


def _rows(
    group: tuple[Slot, ...], barred: frozenset[str]
) -> Iterator[tuple[tuple[Supply | None, Slot], ...]]:
    columns = [[(supply, slot) for supply in _column(slot, barred)] for slot in group]
    return (row for row in product(*columns) if _sealed(row, barred))


def _column(slot: Slot, barred: frozenset[str]) -> list[Supply | None]:
    supplies: list[Supply | None] = [s for s in _IN_SLOT[slot] if s.key not in barred]
    return supplies if slot is Slot.BARRIER else [*supplies, None]


def _sealed(row: tuple[tuple[Supply | None, Slot], ...], barred: frozenset[str]) -> bool:
    """Powder is sealed by protectant, unless the protectant itself is barred."""
    powder = row[0][1] is Slot.POWDER and row[0][0] is not None
    return not powder or row[1][0] is not None or "protectant" in barred


def _option(
    supply: Supply | None,
    slot: Slot,
    needs: tuple[Need, ...],
    lifting: frozenset[str],
    worn: Worn,
    kept: frozenset[str],
    effort: Mapping[str, int],
) -> Option:
    changes = _changed(supply, slot, worn, kept)
    if supply is None:
        return Option(Cost(changes, 0, 0, 0).packed(), (), 0)
    met = sum(1 << i for i, need in enumerate(needs) if meets(supply, need, lifting))
    cost = Cost(changes, 1, effort[supply.key], _PLACE[supply.key])
    return Option(cost.packed(), (supply.key,), met)


def _joined(a: Option, b: Option) -> Option:
    return Option(a.cost + b.cost, a.keys + b.keys, a.met | b.met)


def meets(supply: Supply, need: Need, lifting: frozenset[str]) -> bool:
    """``supply`` provides as much as ``need`` asks. ``lifting``: barriers that lift more than every
    one that failed."""
    capacity = supply.provides.get(need.key)
    if capacity is None or (need.amount is not None and capacity < need.amount):
        return False
    return need.key != "lift_rim" or supply.key in lifting


def lifting_barriers(situation: Situation) -> frozenset[str]:
    """Barriers that still count as lifting after what was tried."""
    return stronger_than_failed(situation.facts, CONVEX)


def reachable(
    needs: tuple[Need, ...], situation: Situation, barred: Collection[str]
) -> tuple[Need, ...]:
    """``needs`` without those of a dome where no dome may be chosen."""
    if lifting_barriers(situation) - set(barred):
        return needs
    return tuple(need for need in needs if need.key not in ("firm_dome", "hold_snug"))


def _changed(supply: Supply | None, slot: Slot, worn: Worn, kept: frozenset[str]) -> int:
    there = worn.in_slot(slot)
    if supply is None:
        return 1 if there else 0
    return 0 if supply.key in there or (supply.key in kept and not there) else 1


def _effort_of(person: Person) -> dict[str, int]:
    """Effort of each supply for these hands and eyes, pressure on the skin included."""
    weight = {None: 1, Ability.GOOD: 1, Ability.LIMITED: 2, Ability.ONE_HAND: 3, Ability.NONE: 3}
    hands, eyes = weight[person.dexterity], weight[person.eyesight]
    return {s.key: s.hands * hands + s.eyes * eyes + s.press for s in CATALOGUE}


def undominated(group: list[Option]) -> list[Option]:
    """Options that meet something more, or cost less, than every other one."""
    kept: list[Option] = []
    for option in sorted(group):
        if not any(option.met | better.met == better.met for better in kept):
            kept.append(option)
    return kept


def _extend(ways: list[Option], group: list[Option]) -> list[Option]:
    """Every way so far with every option of the next group; the cheapest few for each ``met``."""
    if len(group) == 1:
        return [_joined(way, group[0]) for way in ways]
    found: dict[int, list[Option]] = {}
    for way in ways:
        for option in group:
            same = found.setdefault(way.met | option.met, [])
            if len(same) < _KEPT or way.cost + option.cost <= same[-1].cost:
                same.append(_joined(way, option))
                same.sort()
                del same[_KEPT:]
    return [way for same in found.values() for way in same]


def unmet_needs(combination: Combination, needs: tuple[Need, ...]) -> tuple[Need, ...]:
    """Needs that ``combination`` leaves open."""
    return tuple(need for i, need in enumerate(needs) if not combination.met >> i & 1)


def meets_map(
    keys: Iterable[str], needs: tuple[Need, ...], situation: Situation
) -> dict[str, tuple[Need, ...]]:
    """For each supply the needs that it meets."""
    lifting = lifting_barriers(situation)
    return {key: tuple(n for n in needs if meets(SUPPLIES[key], n, lifting)) for key in keys}


def why_lost(best: Combination, other: Combination, needs: tuple[Need, ...]) -> str:
    """The first point of the order at which ``other`` falls behind ``best``."""
    if (best.essential, best.other) != (other.essential, other.other):
        open_ = [n.text for n in unmet_needs(other, needs) if n not in unmet_needs(best, needs)]
        return "It leaves open: " + "; ".join(open_).lower() + "."
    names = (
        "It changes more at once",
        "It needs more items",
        "It asks more of hands, eyes or skin",
    )
    for words, mine, its in zip(names, best.cost, other.cost, strict=False):
        if mine != its:
            return f"{words} ({its} against {mine})."
    return "It is equal in every point and stands later in the table."
