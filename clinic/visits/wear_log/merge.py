"""One log out of what several people recorded of the same barriers. Pure: no rows, no clock.

The rule. A *source* is one visit, or the log page. Each claims barriers: from when to when, and
why each came off.

1. The same claim from two sources is one barrier. What else was the matter is known where one of
   them says it; where they name two things, neither is taken, and the log shows that they differ.
2. Two sources that name the same first day mean the same barrier if one saw it still on and
   the other knows a later (or the same) day on which it came off: what is known later wins.
3. All else stays, each claim as it was made. Claims of different sources that cannot both be true
   (they overlap) are ``disputed``; nothing is dropped and no side is taken.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from uuid import UUID

#: The source of what was entered on the log page.
PAGE = "page"


@dataclass(frozen=True, slots=True)
class Claim:
    """What one row says. ``source``: ``PAGE`` or the visit's id; ``row``: the row's own id.

    ``seen_on``: for a barrier still on, the last day on which it is known to have been: the day
    of the visit; on the log page, which may be typed weeks later, only its first day.
    """

    on: date
    off: date | None
    reason: str
    source: str
    row: UUID
    seen_on: date
    words: str = ""
    circumstance: str = ""


@dataclass(frozen=True, slots=True)
class Logged:
    """One barrier of the log, from the day it was put on. Whole days; 0 is less than a day.

    ``off`` None and ``reason`` "": no one recorded that it came off. Unless ``superseded`` (a
    later barrier was put on since, so it must have) it is still on: an open observation.
    ``seen_on``: the last day on which it is known to have been worn; for one that came off, that
    day. ``disputed``: another claim contradicts it; both are in the log.
    """

    on: date
    off: date | None
    reason: str
    seen_on: date
    claims: tuple[Claim, ...]
    disputed: bool = False
    superseded: bool = False

    @property
    def days(self) -> int | None:
        """Whole days worn; None where it is not known to have come off."""
        return (self.off - self.on).days if self.off else None

    @property
    def circumstance(self) -> str:
        """What else was the matter when it came off; "" where no one said, or they differ."""
        named = self.circumstances
        return named[0] if len(named) == 1 else ""

    @property
    def circumstances(self) -> tuple[str, ...]:
        """Everything that somebody said was the matter."""
        return tuple(dict.fromkeys(c.circumstance for c in self.claims if c.circumstance))

    @property
    def rows(self) -> frozenset[UUID]:
        """Ids of the rows it was recorded in."""
        return frozenset(claim.row for claim in self.claims)


_Key = tuple[date, date, str]


def merge(claims: Iterable[Claim]) -> tuple[Logged, ...]:
    """The log, oldest first, by the rule above."""
    claims = sorted(claims, key=lambda c: (c.on, c.off or date.max, c.source, str(c.row)))
    closed = _closed(claims)
    still_on = _still_on([c for c in claims if c.off is None], closed)
    barriers = [_logged(group) for groups in closed.values() for group in groups]
    barriers += [_logged(group) for group in still_on]
    # Of two put on one day, the one that came off that day was first.
    barriers.sort(key=lambda b: (b.on, b.off or date.max, b.reason))
    return _compared(barriers)


def _closed(claims: list[Claim]) -> dict[_Key, list[list[Claim]]]:
    """Barriers that came off. Two alike of one source are two (twice on one day), of two one."""
    found: dict[_Key, list[list[Claim]]] = defaultdict(list)
    for claim in claims:
        if claim.off is None:
            continue
        groups = found[claim.on, claim.off, claim.reason]
        free = [group for group in groups if claim.source not in {c.source for c in group}]
        if free:
            min(free, key=lambda group: _differ(claim, group)).append(claim)
        else:
            groups.append([claim])
    return found


def _differ(claim: Claim, group: list[Claim]) -> int:
    """Of two alike, the one that names the same circumstance is meant first."""
    named = {other.circumstance for other in group}
    if claim.circumstance in named:
        return 0
    return 1 if not claim.circumstance or named == {""} else 2


def _still_on(still_on: list[Claim], closed: dict[_Key, list[list[Claim]]]) -> list[list[Claim]]:
    """Claims of a barrier still on, one group a first day, less those known to have come off.

    The latter join the group of the barrier they name, in ``closed``.
    """
    left: dict[date, list[Claim]] = defaultdict(list)
    for claim in still_on:
        known = [
            (key, group)
            for key, groups in closed.items()
            for group in groups
            if key[0] == claim.on
            and key[1] >= claim.seen_on
            # A source that records both means two barriers.
            and claim.source not in {other.source for other in group}
        ]
        if known:
            max(known, key=lambda pair: pair[0])[1].append(claim)
        else:
            left[claim.on].append(claim)
    return list(left.values())


def _logged(group: list[Claim]) -> Logged:
    ended = next((c for c in group if c.off is not None), None)
    seen_on = ended.off if ended and ended.off else max(c.seen_on for c in group)
    return Logged(
        on=group[0].on,
        off=ended.off if ended else None,
        reason=ended.reason if ended else "",
        seen_on=seen_on,
        claims=tuple(group),
    )


def _compared(barriers: list[Logged]) -> tuple[Logged, ...]:
    disputed: set[int] = set()
    reach: list[int] = []  # earlier barriers that may still overlap what comes
    for place, barrier in enumerate(barriers):
        reach = [other for other in reach if barriers[other].seen_on > barrier.on]
        for other in reach:
            disputed |= {place, other}
        reach.append(place)
    return tuple(
        Logged(
            b.on,
            b.off,
            b.reason,
            b.seen_on,
            b.claims,
            disputed=place in disputed,
            superseded=b.off is None and place < len(barriers) - 1,
        )
        for place, b in enumerate(barriers)
    )
