"""What is worn now, in the catalogue's keys."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from planning.facts.derive import Facts
from planning.geometry.convexity import depth_class
from planning.inputs.findings import Accessory, Degree, PouchingSystem, Profile
from planning.supplies.catalogue import CONVEX, FLAT, SUPPLIES, Slot

_OF_ACCESSORY: Final = {
    Accessory.RING: "ring",
    Accessory.HALF_RING: "half_ring",
    Accessory.STRIP: "strip",
    Accessory.PASTE: "paste",
    Accessory.POWDER: "powder",
    Accessory.ANTIFUNGAL_POWDER: "antifungal_powder",
    Accessory.PROTECTANT: "protectant",
    Accessory.ADHESIVE_REMOVER: "adhesive_remover",
    Accessory.BELT: "belt",
    Accessory.SUPPORT_GARMENT: "support_garment",
    Accessory.THICKENER: "thickener",
    Accessory.NIGHT_BAG: "night_bag",
    Accessory.TAPE: "tape",
    Accessory.POUCH_COVER: "pouch_cover",
    Accessory.LUBRICANT: "lubricant",
}

_BY_PLAN: Final = frozenset({"other_material", "extended_wear"})

#: Keys of the supplies that are recorded as accessories.
ACCESSORIES: Final = frozenset(_OF_ACCESSORY.values())


@dataclass(frozen=True)
class Worn:
    """``possible``: every barrier that what was recorded may mean; one key where it is certain."""

    possible: frozenset[str]
    others: frozenset[str]
    known: bool

    @cached_property
    def keys(self) -> frozenset[str]:
        return self.possible | self.others

    @cached_property
    def _by_slot(self) -> Mapping[Slot, frozenset[str]]:
        places = {SUPPLIES[key].slot for key in self.keys}
        return {
            slot: frozenset(key for key in self.keys if SUPPLIES[key].slot is slot)
            for slot in places
        }

    def in_slot(self, slot: Slot) -> frozenset[str]:
        """Keys worn (or possibly worn) in ``slot``."""
        return self._by_slot.get(slot, frozenset())

    @property
    def barrier_certain(self) -> bool:
        return len(self.possible) == 1


def worn_now(facts: Facts) -> Worn:
    """The system in use; nothing known gives empty sets and ``known`` False."""
    system = facts.findings.system
    if system is None:
        return Worn(frozenset(), frozenset(), known=False)
    others = {_OF_ACCESSORY[a] for a in system.accessories or ()}
    if system.tape_border:
        others.add("tape")
    others |= {
        word.value
        for word in (system.pieces, system.opening_kind, system.pouch)
        if word is not None
    }
    if facts.history.last_plan is not None:
        # No field says what is worn of these: the last plan does.
        others |= facts.history.last_plan.supplies & _BY_PLAN
    if {"powder", "antifungal_powder"} <= others:
        others.discard("powder")
    return Worn(possible_barriers(system), frozenset(others), known=True)


def worn_before(facts: Facts, worn: Worn) -> tuple[frozenset[str], ...]:
    """Systems whose steps are behind this person: the one worn now, as far as it is certain, and
    every one that failed since a plan last helped."""
    barrier = worn.possible if worn.barrier_certain else frozenset()
    newest: list[frozenset[str]] = []
    for trial in reversed(facts.history.trials):
        if trial.helped:
            break
        if trial.helped is False:
            newest.append(trial.supplies)
    return (worn.others | barrier, *newest)


def _depth(system: PouchingSystem) -> str | None:
    """The class of the dome, measured or known by its class alone."""
    if system.convex_depth_mm is not None:
        return depth_class(system.convex_depth_mm).value
    return None if system.convex_depth is None else system.convex_depth.value


def possible_barriers(system: PouchingSystem) -> frozenset[str]:
    """Every barrier that what is known of it may mean; empty where its profile is not known."""
    if system.profile is None:
        return frozenset()
    if system.profile is Profile.FLAT:
        certain = {Degree.MORE: "flat_flexible", Degree.LESS: "flat_firm"}
        return FLAT if system.flexibility is None else frozenset({certain[system.flexibility]})
    if system.profile is Profile.CONCAVE:
        return frozenset({"concave"})
    keys = CONVEX
    if (depth := _depth(system)) is not None:
        keys = frozenset(key for key in keys if key.endswith(depth))
    feel = (system.compressibility, system.flexibility)
    if Degree.MORE in feel:
        return frozenset(key for key in keys if key.startswith("soft"))
    if Degree.LESS in feel:
        return frozenset(key for key in keys if key.startswith("firm"))
    return keys
