"""What every slot of the system may hold, with its cost and the needs that it meets."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache, cached_property, reduce
from itertools import product
from typing import Final, NamedTuple

from planning.inputs.findings import Ability, Person
from planning.ranked_facts import RankedFacts
from planning.results.plan import Need
from planning.supplies.catalogue import CATALOGUE, CONVEX, Slot, Supply
from planning.supplies.trials import proven, stronger_than_failed
from planning.supplies.worn import Worn

#: Slots chosen together because one supply calls for the other.
_GROUPS: Final[tuple[tuple[Slot, ...], ...]] = tuple(
    (Slot.POWDER, Slot.PROTECTANT) if slot is Slot.POWDER else (slot,)
    for slot in Slot
    if slot is not Slot.PROTECTANT
)
#: What each group may hold at all.
_IN_GROUP: Final = tuple(
    frozenset(s.key for s in CATALOGUE if s.slot in group) for group in _GROUPS
)
_IN_SLOT: Final = {slot: tuple(s for s in CATALOGUE if s.slot is slot) for slot in Slot}
_PROVIDERS: Final = {
    key: tuple(s for s in CATALOGUE if key in s.provides)
    for key in {key for s in CATALOGUE for key in s.provides}
}
#: The place of a supply in the table.
PLACE: Final = {supply.key: i for i, supply in enumerate(CATALOGUE)}


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


#: What one change adds to a packed cost.
_ONE_CHANGE: Final = Cost(1, 0, 0, 0).packed()


class Option(NamedTuple):
    """What some slots may hold: the packed cost, the supplies, and a bit for each need met."""

    cost: int
    keys: tuple[str, ...]
    met: int


#: Nothing chosen yet.
NOTHING: Final = Option(0, (), 0)


@dataclass(frozen=True)
class Shelf:
    """For every group of slots everything it may hold, with its cost: the same for one person at
    one visit, whatever is needed."""

    groups: list[list[Option]]
    lifting: frozenset[str]

    def options(self, needs: tuple[Need, ...]) -> list[list[Option]]:
        """The same with the needs that each meets."""
        met = _bits_met(needs, self.lifting)
        return [[_meeting(o, met) for o in group] for group in self.groups]

    def useful(self, needs: tuple[Need, ...]) -> list[list[Option]]:
        """Of those in each group the ones that are undominated."""
        met = _bits_met(needs, self.lifting)
        return [
            cheapest if keys.isdisjoint(met) else undominated([_meeting(o, met) for o in group])
            for group, keys, cheapest in zip(self.groups, _IN_GROUP, self._cheapest, strict=True)
        ]

    @cached_property
    def _cheapest(self) -> list[list[Option]]:
        """Of each group what it holds where nothing in it is needed."""
        return [[min(group)] for group in self.groups]


def shelf_of(situation: RankedFacts, worn: Worn, barred: frozenset[str]) -> Shelf:
    """What this person may wear."""
    person = situation.facts.findings.person
    costs = _costs(person.dexterity, person.eyesight)
    kept = proven(situation.facts.history)

    def column(slot: Slot) -> list[Option]:
        return [_option(s, slot, worn, kept, costs) for s in _column(slot, barred)]

    groups = [[reduce(joined, row) for row in _rows(group, column, barred)] for group in _GROUPS]
    return Shelf(groups, lifting_barriers(situation))


def options(
    situation: RankedFacts, needs: tuple[Need, ...], worn: Worn, barred: frozenset[str]
) -> list[list[Option]]:
    """For every group of slots, everything it may hold."""
    return shelf_of(situation, worn, barred).options(needs)


def _bits_met(needs: tuple[Need, ...], lifting: frozenset[str]) -> dict[str, int]:
    """A bit for each need met; only what meets any."""
    met: dict[str, int] = {}
    for i, need in enumerate(needs):
        for supply in providers_of(need):
            if meets(supply, need, lifting):
                met[supply.key] = met.get(supply.key, 0) | 1 << i
    return met


def _meeting(option: Option, met: Mapping[str, int]) -> Option:
    bits = 0
    for key in option.keys:
        bits |= met.get(key, 0)
    return Option(option.cost, option.keys, bits) if bits else option


def _rows(
    group: tuple[Slot, ...], column: Callable[[Slot], list[Option]], barred: frozenset[str]
) -> Iterable[tuple[Option, ...]]:
    rows = product(*map(column, group))
    if Slot.POWDER not in group:
        return rows
    return ((powder, film) for powder, film in rows if sealed(powder, film, barred))


def _column(slot: Slot, barred: frozenset[str]) -> list[Supply | None]:
    supplies: list[Supply | None] = [s for s in _IN_SLOT[slot] if s.key not in barred]
    return supplies if slot is Slot.BARRIER else [*supplies, None]


def sealed(powder: Option, film: Option, barred: frozenset[str]) -> bool:
    """Powder is sealed by protectant, unless the protectant itself is barred."""
    return not powder.keys or bool(film.keys) or "protectant" in barred


def _option(
    supply: Supply | None,
    slot: Slot,
    worn: Worn,
    kept: frozenset[str],
    costs: Mapping[str, int],
) -> Option:
    changing = _changed(supply, slot, worn, kept) * _ONE_CHANGE
    if supply is None:
        return Option(changing, (), met=0)
    return Option(changing + costs[supply.key], (supply.key,), met=0)


@cache
def _costs(dexterity: Ability | None, eyesight: Ability | None) -> Mapping[str, int]:
    """Packed cost of each supply that is worn already."""
    effort = effort_of(Person(dexterity=dexterity, eyesight=eyesight))
    return {
        key: Cost(0, items=1, effort=effort[key], place=place).packed()
        for key, place in PLACE.items()
    }


def joined(a: Option, b: Option) -> Option:
    """Both together."""
    return Option(a.cost + b.cost, a.keys + b.keys, a.met | b.met)


def meets(supply: Supply, need: Need, lifting: frozenset[str]) -> bool:
    """``supply`` provides as much as ``need`` asks. ``lifting``: barriers that lift more than every
    one that failed."""
    capacity = supply.provides.get(need.key)
    if capacity is None or (need.amount is not None and capacity < need.amount):
        return False
    return need.key != "lift_rim" or supply.key in lifting


def providers_of(need: Need) -> tuple[Supply, ...]:
    """Supplies made for ``need``, however much of it they can meet."""
    return _PROVIDERS.get(need.key, ())


def lifting_barriers(situation: RankedFacts) -> frozenset[str]:
    """Barriers that still count as lifting after what was tried."""
    return stronger_than_failed(situation.facts, CONVEX)


def _changed(supply: Supply | None, slot: Slot, worn: Worn, kept: frozenset[str]) -> int:
    there = worn.in_slot(slot)
    if supply is None:
        return 1 if there else 0
    return 0 if supply.key in there or (supply.key in kept and not there) else 1


def effort_of(person: Person) -> dict[str, int]:
    """Effort of each supply for these hands and eyes, pressure on the skin included."""
    weight = {None: 1, Ability.GOOD: 1, Ability.LIMITED: 2, Ability.ONE_HAND: 3, Ability.NONE: 3}
    hands, eyes = weight[person.dexterity], weight[person.eyesight]
    return {s.key: s.hands * hands + s.eyes * eyes + s.press for s in CATALOGUE}


def undominated(group: list[Option]) -> list[Option]:
    """Options that meet something more, or cost less, than every other one."""
    kept: list[Option] = []
    for option in sorted(group):
        for better in kept:
            if option.met | better.met == better.met:
                break
        else:
            kept.append(option)
    return kept
