"""How long damaged skin takes to heal, as times for a survival curve ("failure" is healing)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from planning.inputs.usable_numbers import check_numbers


@dataclass(frozen=True, slots=True)
class Healing:
    """One stretch of damaged skin, from the visit that found it first.

    ``days`` to the first visit with intact skin, or (not ``healed``) to the last that still found
    damage. Skin heals between two visits: ``days`` is the latest it can have been.
    """

    start: date
    days: int
    healed: bool


def healing(burdens: Sequence[tuple[date, float | None]]) -> tuple[Healing, ...]:
    """The stretches in dated skin burdens (mm2, or any measure that is 0 for intact skin).

    None is a visit that did not record the skin: it neither heals nor goes on. Two visits of one
    day count in order of time.
    """
    check_numbers(burdens=[burden for _, burden in burdens], low=0, may_be_empty=True)
    found: list[Healing] = []
    start: date | None = None
    last: date | None = None
    for day, burden in sorted(burdens, key=lambda seen: seen[0]):
        if burden is None:
            continue
        if burden > 0:
            start, last = start or day, day
        elif start is not None:
            found.append(Healing(start, (day - start).days, healed=True))
            start = None
    if start is not None and last is not None:
        found.append(Healing(start, (last - start).days, healed=False))
    return tuple(found)
