"""How far a new stoma has shrunk since its first size after surgery, and whether it has settled."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import sqrt

from planning.evidence.thresholds import PRE_CUT_FROM, PRE_CUT_STABLE, SHRINKS_DAYS
from planning.inputs.usable_numbers import check_numbers
from planning.statistics.too_few import TooFew


@dataclass(frozen=True, slots=True)
class Sized:
    """The stoma at the skin on one day: two axes, mm, both above zero."""

    day: date
    length_mm: float
    width_mm: float

    @property
    def across_mm(self) -> float:
        """Diameter of the circle of the same area as the ellipse, mm."""
        return sqrt(self.length_mm * self.width_mm)


@dataclass(frozen=True, slots=True)
class Shrinkage:
    """From the first size after surgery to the latest.

    ``share`` is what is left of the first diameter across (0.8: four fifths); more than 1 where it
    grew. ``settled_on``: the day by which the size had settled, None if not yet.
    """

    first: Sized
    latest: Sized
    share: float
    settled_on: date | None


def shrinkage(sizes: Sequence[Sized], surgery: date | None) -> Shrinkage | TooFew | None:
    """What is left of the first size.

    None: surgery's day unknown, or nothing measured in the time a new stoma shrinks
    (``SHRINKS_DAYS``), so no size is a first one. Too few below two sizes on different days.
    """
    _check(sizes)
    after = sorted((s for s in sizes if surgery and s.day >= surgery), key=lambda s: s.day)
    if surgery is None or not after or (after[0].day - surgery).days > SHRINKS_DAYS.value:
        return None
    days = len({s.day for s in after})
    if days < 2:
        return TooFew(days, 2, "days with a size")
    first, latest = after[0], after[-1]
    return Shrinkage(first, latest, latest.across_mm / first.across_mm, settled_on(after, surgery))


def settled_on(sizes: Sequence[Sized], surgery: date) -> date | None:
    """The day by which the latest size has settled; None: not yet.

    Rule (design value): the same two axes on days at least ``PRE_CUT_STABLE`` apart, nothing else
    in between or since, and the later of them at least ``PRE_CUT_FROM`` after surgery.
    """
    _check(sizes)
    ordered = sorted((s for s in sizes if s.day >= surgery), key=lambda s: s.day)
    if not ordered:
        return None
    since = ordered[-1].day
    for size in reversed(ordered):
        if not _alike(size, ordered[-1]):
            break
        since = size.day
    for size in ordered:
        stable = (size.day - since).days >= PRE_CUT_STABLE.value
        if stable and (size.day - surgery).days >= PRE_CUT_FROM.value:
            return size.day
    return None


def _alike(a: Sized, b: Sized) -> bool:
    return (a.length_mm, a.width_mm) == (b.length_mm, b.width_mm)


def _check(sizes: Sequence[Sized]) -> None:
    axes = [(size.length_mm, size.width_mm) for size in sizes]
    check_numbers(sizes=axes, above=0, may_be_empty=True)
