"""The choice: the best of all admissible combinations, one supply or none from every slot.

Order: no hazard > essential needs met > other needs met > fewest changes > fewest items > least
effort and pressure. Costs only add up, so the slots can be gone through one after the other,
keeping for each set of needs met the cheapest ways there: nothing that could still win is dropped.
An option that meets no more needs at no less cost than another of its slot never earns its place.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import reduce
from itertools import product
from typing import Final

from planning.findings import Ability, Person
from planning.needs import ESSENTIAL
from planning.plan import Need
from planning.situation import Situation
from planning.supplies.catalogue import CATALOGUE, CONVEX, SUPPLIES, Slot, Supply
from planning.supplies.trials import proven, stronger_than_failed
from planning.supplies.worn import Worn

#: Changes, items, effort, place in the table.
Cost = tuple[int, int, int, int]

#: Slots chosen together because one supply calls for the other.
_GROUPS: Final[tuple[tuple[Slot, ...], ...]] = tuple(
    (Slot.POWDER, Slot.PROTECTANT) if slot is Slot.POWDER else (slot,)
    for slot in Slot
    if slot is not Slot.PROTECTANT
)
_IN_SLOT: Final = {slot: tuple(s for s in CATALOGUE if s.slot is slot) for slot in Slot}
_PLACE: Final = {supply.key: i for i, supply in enumerate(CATALOGUE)}
_KEPT: Final = 2


@dataclass(frozen=True, slots=True)
class Option:
    """What one group of slots may hold: ``met`` is a bit for each need."""

    keys: tuple[str, ...]
    met: int
    cost: Cost


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

    @property
    def order(self) -> tuple[int, int, Cost, tuple[str, ...]]:
        return self.essential, self.other, self.cost, self.keys


def search(
    situation: Situation, needs: tuple[Need, ...], worn: Worn, barred: Iterable[str]
) -> tuple[Combination, Combination | None]:
    """The best combination, and the next best whose every item earns its place."""
    groups = options(situation, needs, worn, frozenset(barred))
    reached = reduce(_extend, (undominated(group) for group in groups), [Option((), 0, _FREE)])
    ranked = sorted((_judged(option, needs) for option in reached), key=lambda c: c.order)
    return ranked[0], ranked[1] if len(ranked) > 1 else None


_FREE: Final[Cost] = (0, 0, 0, 0)


def options(
    situation: Situation, needs: tuple[Need, ...], worn: Worn, barred: frozenset[str]
) -> list[list[Option]]:
    """For every group of slots, everything it may hold."""
    effort = _effort_of(situation.facts.findings.person)
    kept = proven(situation.facts.history)
    lifting = lifting_barriers(situation)
    out = []
    for group in _GROUPS:
        columns = [_column(slot, barred) for slot in group]
        rows = [row for row in product(*columns) if _sealed(row, group, barred)]
        out.append([_option(row, group, needs, lifting, worn, kept, effort) for row in rows])
    return out


def _column(slot: Slot, barred: frozenset[str]) -> list[Supply | None]:
    supplies: list[Supply | None] = [s for s in _IN_SLOT[slot] if s.key not in barred]
    return supplies if slot is Slot.BARRIER else [*supplies, None]


def _sealed(
    row: tuple[Supply | None, ...], group: tuple[Slot, ...], barred: frozenset[str]
) -> bool:
    """Powder is sealed by protectant, unless the protectant itself is barred."""
    if group[0] is not Slot.POWDER or row[0] is None:
        return True
    return row[1] is not None or "protectant" in barred


def _option(
    row: tuple[Supply | None, ...],
    group: tuple[Slot, ...],
    needs: tuple[Need, ...],
    lifting: frozenset[str],
    worn: Worn,
    kept: frozenset[str],
    effort: Mapping[str, int],
) -> Option:
    chosen = [supply for supply in row if supply is not None]
    met = sum(
        1 << i for i, need in enumerate(needs) if any(meets(s, need, lifting) for s in chosen)
    )
    changes = sum(
        _changed(supply, slot, worn, kept) for supply, slot in zip(row, group, strict=True)
    )
    keys = tuple(s.key for s in chosen)
    cost = (
        changes,
        len(chosen),
        sum(effort[key] for key in keys),
        sum(_PLACE[key] for key in keys),
    )
    return Option(keys, met, cost)


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
    ordered = sorted(group, key=lambda o: o.cost)
    kept: list[Option] = []
    for option in ordered:
        if not any(option.met | better.met == better.met for better in kept):
            kept.append(option)
    return kept


def _extend(ways: list[Option], group: list[Option]) -> list[Option]:
    """Every way so far with every option of the next group; the cheapest few for each ``met``."""
    found: dict[int, list[Option]] = {}
    for way in ways:
        for option in group:
            joined = Option(way.keys + option.keys, way.met | option.met, _add(way, option))
            found.setdefault(joined.met, []).append(joined)
    cheapest: list[Option] = []
    for same in found.values():
        cheapest += sorted(same, key=lambda o: (o.cost, o.keys))[:_KEPT]
    return cheapest


def _add(a: Option, b: Option) -> Cost:
    (c, i, e, p), (c2, i2, e2, p2) = a.cost, b.cost
    return c + c2, i + i2, e + e2, p + p2


def _judged(option: Option, needs: tuple[Need, ...]) -> Combination:
    unmet = [need.key for i, need in enumerate(needs) if not option.met >> i & 1]
    essential = sum(key in ESSENTIAL for key in unmet)
    return Combination(option.keys, option.met, option.cost, essential, len(unmet) - essential)


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
