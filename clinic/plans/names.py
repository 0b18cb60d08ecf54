"""What a thing of the plan is called in a few words."""

from __future__ import annotations

from typing import Final

from clinic.plans.decidables import FOLLOW_UP, REFERRAL, Decidable
from planning.results.plan import ItemKind, RedFlag
from planning.supplies.catalogue import SUPPLIES, Slot

_OF_SLOT: Final = {
    Slot.BARRIER: "barrier",
    Slot.MATERIAL: "barrier's material",
    Slot.WEAR: "barrier's material",
    Slot.PIECES: "one-piece or two-piece system",
    Slot.OPENING: "opening",
    Slot.RING: "ring",
    Slot.HALF_RING: "half ring",
    Slot.STRIP: "strip",
    Slot.PASTE: "paste",
    Slot.POWDER: "powder",
    Slot.PROTECTANT: "film",
    Slot.WOUND: "dressing",
    Slot.REMOVER: "remover",
    Slot.POUCH: "pouch",
    Slot.NIGHT: "night bag",
    Slot.THICKENER: "thickener",
    Slot.BELT: "belt",
    Slot.GARMENT: "support garment",
    Slot.TAPE: "tape",
    Slot.COVER: "pouch cover",
    Slot.CONTENTS: "lubricant",
}


def name_of(item: Decidable) -> str:
    """The part it is about: *ring*, *opening*, *next visit*."""
    if item.key == FOLLOW_UP:
        return "next visit"
    if isinstance(item.source, RedFlag):
        return f"referral to {item.source.refer_to}"
    source = item.source
    if source.key in SUPPLIES:
        return _OF_SLOT[SUPPLIES[source.key].slot]
    if source.kind is ItemKind.OPENING:
        return "opening"
    if source.kind is ItemKind.WEAR:
        return "change day"
    return f"\N{LEFT DOUBLE QUOTATION MARK}{_short(item.text)}\N{RIGHT DOUBLE QUOTATION MARK}"


def kept_name(item: Decidable) -> str:
    """What is kept, as it is listed: *flat barrier*, *two-piece system*."""
    key = getattr(item.source, "key", "")
    return _supply(key) if key in SUPPLIES else name_of(item)


def _supply(key: str) -> str:
    """Its name without what is said of it behind a comma.

    >>> _supply("flat_flexible"), _supply("soft_convex_deep"), _supply("drainable")
    ('flat barrier', 'soft convex barrier', 'drainable pouch')
    """
    supply = SUPPLIES[key]
    name = supply.name.partition(",")[0]
    bare = supply.slot is Slot.BARRIER and "barrier" not in name
    return f"{name} barrier" if bare else name


def changed_since(item: Decidable) -> str:
    """Asks again, by name."""
    name = name_of(item)
    the = "" if name.startswith("\N{LEFT DOUBLE QUOTATION MARK}") else "The "
    return f"{the}{name} changed since you decided: decide again."


def key_name(key: str) -> str:
    """Of something the plan no longer says, of which only the key is known; "" where it has no
    name of its own."""
    if key == FOLLOW_UP or key.startswith(REFERRAL):
        return ""
    if key in SUPPLIES:
        return _supply(key)
    return "opening" if key == "opening" else ""


def news_of(item: Decidable) -> str:
    """What is new about it, as in *soft convex barrier now*; "" for advice."""
    source = item.source
    if item.key == FOLLOW_UP:
        return f"next visit {item.text.rpartition('(')[2].rstrip(')')}"
    if isinstance(source, RedFlag):
        return f"danger: {_short(item.text)}"
    if source.key in SUPPLIES:
        return f"{_stopped(source.change.value)}{_supply(source.key)}"
    if source.kind in (ItemKind.OPENING, ItemKind.WEAR):
        return _short(item.text)[:1].lower() + _short(item.text)[1:]
    return ""


def _stopped(change: str) -> str:
    return "no more " if change == "stop" else ""


def _short(text: str) -> str:
    """Up to the first comma, bracket or colon."""
    for mark in (",", " (", ":", ";"):
        text = text.partition(mark)[0]
    return text.strip().rstrip(".")
