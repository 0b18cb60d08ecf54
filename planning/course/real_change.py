"""Has a value moved by more than the error of measuring it?

The newest value is held against the oldest of the last ``COURSE_WINDOW`` days and against the one
just before it, so that neither a slow drift nor a sudden step is missed. Only a difference that
reaches the smallest detectable change (2.77 times the error) is a move.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from statistics import NormalDist

from planning.course.number_words import day_words, measure
from planning.course.results import Point
from planning.evidence.thresholds import COURSE_WINDOW
from planning.inputs.usable_numbers import check_numbers
from planning.statistics.error import beyond_error, smallest_detectable_change
from planning.statistics.slope import Slope, theil_sen
from planning.statistics.too_few import TooFew

#: Error of the difference of two values, from both of them (the same for most measures).
Error = Callable[[float, float], float]
#: Of a normal error: 95 % lie within so many standard errors either way.
_BOUND = NormalDist().inv_cdf(0.975)


@dataclass(frozen=True, slots=True)
class Move:
    """From ``since`` to the ``latest`` point; ``least`` the smallest detectable change."""

    since: Point
    latest: Point
    least: float
    unit: str

    @property
    def change(self) -> float:
        return self.latest.value - self.since.value

    @property
    def up(self) -> bool:
        return self.latest.value > self.since.value

    @property
    def words(self) -> str:
        """``from 25 mm (3 May 2025) to 14 mm (1 Jun 2025)``."""
        return (
            f"from {measure(self.since.value, self.unit)} ({day_words(self.since.day)}) "
            f"to {measure(self.latest.value, self.unit)} ({day_words(self.latest.day)})"
        )

    @property
    def figures(self) -> str:
        """With what would have been within error."""
        return f"{self.words}; less than {measure(self.least, self.unit)} is measurement error"


def sem_between(one: Point, other: Point, error: Error) -> float:
    """Standard error of a reading for the difference of these two: the usual ``error``, or for a
    point with a greater one of its own that (a bound of about 95 % is 1.96 times it)."""
    _check((one, other))
    usual = error(one.value, other.value)
    own = [usual if p.error is None else max(usual, p.error / _BOUND) for p in (one, other)]
    return math.hypot(*own) / math.sqrt(2)


def fixed(sem: float) -> Error:
    """The same error ``sem`` whatever the values."""
    check_numbers(sem=sem, low=0)
    return lambda _one, _other: sem


def share_of_mean(share: float) -> Error:
    """An error that grows with what is measured."""
    check_numbers(share=share, low=0)
    return lambda one, other: share * (one + other) / 2


def rise(points: Sequence[Point], error: Error, unit: str) -> Move | None:
    """The newest value is higher beyond error; None: it is not, or there is nothing to compare."""
    _check(points)
    return _greatest(points, error, unit, up=True)


def fall(points: Sequence[Point], error: Error, unit: str) -> Move | None:
    """The newest value is lower beyond error."""
    _check(points)
    return _greatest(points, error, unit, up=False)


def moved(points: Sequence[Point], error: Error, unit: str) -> Move | None:
    """Up or down, whichever of ``rise`` and ``fall`` is the greater."""
    _check(points)
    found = [m for m in (rise(points, error, unit), fall(points, error, unit)) if m is not None]
    return max(found, key=lambda move: abs(move.change), default=None)


def in_window(points: Sequence[Point]) -> Sequence[Point]:
    """Those of the last ``COURSE_WINDOW`` days before the newest."""
    _check(points)
    return [p for p in points if (points[-1].day - p.day).days <= COURSE_WINDOW.value]


def slope(points: Sequence[Point]) -> Slope | TooFew:
    """Theil and Sen's slope over the real days, units a day."""
    _check(points)
    if not points:
        return theil_sen((), ())
    start = points[0].day
    days = [float((point.day - start).days) for point in points]
    return theil_sen(days, [point.value for point in points])


def _greatest(points: Sequence[Point], error: Error, unit: str, *, up: bool) -> Move | None:
    references = [in_window(points)[0], points[-2]] if len(points) > 1 else []
    moves = [_move(point, points[-1], error, unit) for point in references]
    found = [move for move in moves if move is not None and move.up is up]
    return max(found, key=lambda move: abs(move.change), default=None)


def _move(since: Point, now: Point, error: Error, unit: str) -> Move | None:
    sem = sem_between(since, now, error)
    if not beyond_error(now.value - since.value, sem):
        return None
    return Move(since, now, smallest_detectable_change(sem), unit)


def _check(points: Sequence[Point]) -> None:
    check_numbers(values=[point.value for point in points], may_be_empty=True)
    check_numbers(errors=[point.error for point in points], low=0, may_be_empty=True)
