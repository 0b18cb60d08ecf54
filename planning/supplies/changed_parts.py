"""What counts as one change of what is worn: the one definition.

One each: a part added, dropped or swapped for another kind; an opening of another size or shape;
care of damaged skin, powder with or without film. Parts that need each other count once: a barrier
with its opening, material and build; a system of other pieces with its pouch. A remover and the
dressing of a wound are none, nor is technique. (Design value.)
"""

from __future__ import annotations

from collections import defaultdict
from typing import Final

from planning.supplies.catalogue import SUPPLIES, Slot
from planning.supplies.worn import Worn

_BUILD: Final = (Slot.BARRIER, Slot.MATERIAL, Slot.WEAR, Slot.PIECES)
_CARE: Final = (Slot.POWDER, Slot.PROTECTANT)
_FREE: Final = (Slot.WOUND, Slot.REMOVER)
#: Names of the parts that a plan may change.
BARRIER, OPENING, POUCH, SKIN_CARE = "barrier", "opening", "pouch", "skin_care"


def changed_parts(
    worn: Worn, supplies: frozenset[str], *, build: bool, opening: bool
) -> frozenset[str]:
    """Each part that ``supplies`` change against what is worn.

    ``build``: the barrier, its material or its pieces are others. ``opening``: its size is another.
    """
    chosen: defaultdict[Slot, set[str]] = defaultdict(set)
    for key in supplies:
        chosen[SUPPLIES[key].slot].add(key)
    parts = {part for slot, part in _PARTS if _differs(slot, worn, chosen[slot])}
    if build:
        parts.add(BARRIER)
    if opening:
        parts.add(OPENING)
    if BARRIER in parts:
        parts.discard(OPENING)
        if _differs(Slot.PIECES, worn, chosen[Slot.PIECES]):
            parts.discard(POUCH)
    return frozenset(parts)


def part_names(slot: Slot) -> frozenset[str]:
    """The parts under which a change in ``slot`` is counted."""
    if slot in _BUILD:
        return frozenset({BARRIER})
    if slot is Slot.OPENING:
        return frozenset({OPENING, BARRIER})
    if slot is Slot.POUCH:
        return frozenset({POUCH, BARRIER})
    part = _part(slot)
    return frozenset() if part is None else frozenset({part})


def _part(slot: Slot) -> str | None:
    """None where the slot is judged as part of the build, or does not count."""
    if slot in _BUILD or slot in _FREE:
        return None
    return SKIN_CARE if slot in _CARE else slot.value


_PARTS: Final = tuple((slot, part) for slot in Slot if (part := _part(slot)) is not None)


def _differs(slot: Slot, worn: Worn, chosen: set[str]) -> bool:
    there = worn.in_slot(slot)
    # What was not recorded of these is not known to change.
    recorded = slot in (Slot.OPENING, Slot.POUCH, Slot.PIECES)
    other = there and chosen if recorded else there or chosen
    return bool(other) and not there & chosen
