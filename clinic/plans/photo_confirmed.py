"""What became of a proposal: confirmed or not, and what the nurse moved before she did."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from clinic.plans.photo_proposals import CARD, EDGE, opened, signed

#: Moved by more pixels of the picture than this, a point is not where it was proposed.
_STILL_PX: Final = 0.5
NOT_CONFIRMED: Final = {
    CARD: "These corners were proposed by the computer. Check each one, then confirm them.",
    EDGE: "This edge was proposed by the computer. Check it, then confirm it.",
}
_NAMES: Final = {CARD: "corners", EDGE: "edge"}


@dataclass(frozen=True)
class Confirmable:
    """Points as proposed, and whether somebody has said that what is there now is right."""

    points: list[list[float]]
    confirmed: bool


def posted(given: Any, photo: object) -> dict[str, Confirmable]:
    """What the page says of proposals. Raises ``ValueError`` for anything not proposed here."""
    if not isinstance(given, Mapping):
        raise ValueError
    return {
        what: Confirmable(
            opened(photo, what, given[what]["token"]), given[what]["confirmed"] is True
        )
        for what in (CARD, EDGE)
        if given.get(what) is not None
    }


def kept(proposed: Mapping[str, Confirmable], marks: Mapping[str, Any]) -> dict[str, Any]:
    """For keeping beside the marks: what was proposed, how many points of it were moved, added or
    taken away, and how far the farthest is now, in pixels."""
    return {
        what: {"points": one.points, "confirmed": one.confirmed, **_changed(one, marks[what])}
        for what, one in proposed.items()
    }


def _changed(one: Confirmable, marks: list[list[float]]) -> dict[str, Any]:
    away = [min(math.dist(p[:2], mark[:2]) for mark in marks) for p in one.points]
    moved = sum(far > _STILL_PX for far in away)
    added = len(marks) - len(one.points)
    return {"moved": max(moved, abs(added)), "farthest_px": round(max(away), 1)}


def as_posted(stored: Mapping[str, Any], photo: object) -> dict[str, Any]:
    """What was kept, as the page posts it again."""
    return {
        what: {"token": signed(photo, what, one["points"]), "confirmed": one["confirmed"]}
        for what, one in stored.items()
    }


def words(stored: Mapping[str, Any]) -> str:
    """``Proposed by the computer, then confirmed: corners (1 moved), edge.``; "" for none."""
    parts = [
        f"{_NAMES[what]} ({one['moved']} changed)" if one["moved"] else _NAMES[what]
        for what, one in stored.items()
    ]
    return f"Proposed by the computer, then confirmed: {', '.join(parts)}." if parts else ""
