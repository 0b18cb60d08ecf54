"""The choice: the best of all admissible combinations, one supply or none from every slot.

Order: no hazard > essential needs met > other needs met > fewest changes > fewest items > least
effort and pressure. Costs only add up, so the slots can be gone through one after the other,
keeping for each set of needs met the cheapest ways there: nothing that could still win is dropped.
An option that meets no more needs at no less cost than another of its slot never earns its place.
Slots that share no open need cannot help one another and are decided apart.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass, replace
from functools import reduce
from typing import Final

from planning.ranked_facts import RankedFacts
from planning.results.plan import Need
from planning.supplies.catalogue import SUPPLIES
from planning.supplies.options import (
    NOTHING,
    PLACE,
    Cost,
    Option,
    Shelf,
    joined,
    lifting_barriers,
    meets,
    shelf_of,
    unpacked,
)
from planning.supplies.worn import Worn

#: Ways kept for each set of needs met: the best and the next best.
_KEPT: Final = 2


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
        keys = tuple(key for key in PLACE if key in supplies)
        return self if set(keys) == set(self.keys) else replace(self, keys=keys)


def search(
    situation: RankedFacts,
    needs: tuple[Need, ...],
    worn: Worn,
    barred: Iterable[str],
    essential: Collection[str],
) -> tuple[Combination, Combination | None]:
    """The best combination, and the next best whose every item earns its place. ``essential``:
    keys of the needs that go before the others."""
    return search_on(shelf_of(situation, worn, frozenset(barred)), needs, essential)


def search_on(
    shelf: Shelf, needs: tuple[Need, ...], essential: Collection[str]
) -> tuple[Combination, Combination | None]:
    """The same out of what is at hand already."""
    groups = shelf.useful(needs)
    fixed = reduce(joined, (group[0] for group in groups if len(group) == 1), NOTHING)
    must = _bits(needs, lambda key: key in essential)
    may = _bits(needs, lambda key: key not in essential)

    def order(way: Option) -> tuple[int, int, int, tuple[str, ...]]:
        left = ~(way.met | fixed.met)
        return (must & left).bit_count(), (may & left).bit_count(), way.cost, way.keys

    parts = _apart([group for group in groups if len(group) > 1], fixed.met)
    ranked = [heapq.nsmallest(2, _ways(part), key=order) for part in parts]
    best = reduce(joined, (ways[0] for ways in ranked), fixed)
    # A part has two ways at least: no option of its groups is dominated by another.
    others = [
        reduce(joined, (ways[i == place] for i, ways in enumerate(ranked)), fixed)
        for place in range(len(ranked))
    ]
    runner_up = _combination(min(others, key=order), must, may) if others else None
    return _combination(best, must, may), runner_up


def _ways(groups: list[list[Option]]) -> list[Option]:
    """Every way through ``groups`` that could still win."""
    ways = [NOTHING]
    for group in groups:
        ways = _extend(ways, group)
    return ways


def _apart(groups: list[list[Option]], met: int) -> list[list[list[Option]]]:
    """``groups`` in parts that have no need in common, those always ``met`` left out."""
    parts: list[tuple[int, list[list[Option]]]] = []
    for group in sorted(groups, key=len):
        bits = reduce(lambda all_, option: all_ | option.met, group, 0) & ~met
        linked = [part for part in parts if part[0] & bits]
        members = [member for part in linked for member in part[1]]
        bits = reduce(lambda all_, part: all_ | part[0], linked, bits)
        parts = [part for part in parts if not part[0] & bits] + [(bits, [*members, group])]
    return [members for _, members in parts]


def _bits(needs: tuple[Need, ...], wanted: Callable[[str], bool]) -> int:
    return sum(1 << i for i, need in enumerate(needs) if wanted(need.key))


def _combination(way: Option, must: int, may: int) -> Combination:
    return Combination(
        keys=tuple(sorted(way.keys, key=PLACE.__getitem__)),
        met=way.met,
        cost=unpacked(way.cost),
        essential=(must & ~way.met).bit_count(),
        other=(may & ~way.met).bit_count(),
    )


def reachable(
    needs: tuple[Need, ...], lifting: frozenset[str], barred: Collection[str]
) -> tuple[Need, ...]:
    """``needs`` without those of a dome where none of the ``lifting`` barriers may be chosen."""
    if not lifting.issubset(barred):
        return needs
    return tuple(need for need in needs if need.key not in ("firm_dome", "hold_snug"))


def _extend(ways: list[Option], group: list[Option]) -> list[Option]:
    """Every way so far with every option of the next group; the cheapest few for each ``met``."""
    found: dict[int, list[Option]] = {}
    for way in ways:
        for option in group:
            found.setdefault(way.met | option.met, []).append(joined(way, option))
    return [way for same in found.values() for way in heapq.nsmallest(_KEPT, same)]


def unmet_needs(combination: Combination, needs: tuple[Need, ...]) -> tuple[Need, ...]:
    """Needs that ``combination`` leaves open."""
    return tuple(need for i, need in enumerate(needs) if not combination.met >> i & 1)


def meets_map(
    keys: Iterable[str], needs: tuple[Need, ...], situation: RankedFacts
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
    return "It is equal on every point and comes later in the table."
