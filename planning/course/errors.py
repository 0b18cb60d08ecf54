"""Which error of measuring a judgement over time uses: assumed, or of the clinic's own repeats.

A visit does not record who held the ruler, so two readings may be of two nurses: their error holds
(danger-restraint-teaching.md, section 12). With ``REPEATS_LEAST`` pairs the clinic's own replaces
it, at the upper end of its interval, so that few pairs promise no more than they can.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import sqrt
from typing import Final

from planning.course.number_words import number
from planning.course.skin_reading import AreaError
from planning.evidence.thresholds import (
    CHART_STEP,
    PROTRUSION_SEM,
    PROTRUSION_SEM_ONE,
    REPEATS_LEAST,
    SIZE_SEM,
    SIZE_SEM_ONE,
    SKIN_SEM_SHARE,
    SKIN_SEM_SHARE_ONE,
)
from planning.inputs.usable_numbers import check_numbers
from planning.statistics.error import MeasuredError, measured_error, measured_share
from planning.statistics.too_few import TooFew

Pair = tuple[float, float]
ASSUMED: Final = "assumed (design value)"
LEAST: Final = int(REPEATS_LEAST.value)
#: A ruler is read to a whole step: no repeats make a reading surer than that.
_FINEST: Final = CHART_STEP.value / sqrt(3)


class Measure(StrEnum):
    """What is measured twice. Length and width are one: both are read off the same ruler."""

    SIZE = "size"
    HEIGHT = "height"
    AREA = "area"


@dataclass(frozen=True, slots=True)
class Repeat:
    """One stoma measured twice at one visit, in one posture, neither knowing the other's reading.

    Each a pair of first and second reading in mm, the area in mm2. None: not measured by both.
    """

    length: Pair | None = None
    width: Pair | None = None
    height: Pair | None = None
    area: Pair | None = None

    def __post_init__(self) -> None:
        check_numbers(length=self.length, width=self.width, area=self.area, low=0)
        check_numbers(height=self.height)


@dataclass(frozen=True, slots=True)
class UsedError:
    """Standard error of one reading as judgements use it: mm, or of an area a share of it.

    ``measured``: the clinic's own, which it is taken from; None: assumed.
    """

    measure: Measure
    sem: float
    measured: MeasuredError | None = None

    @property
    def words(self) -> str:
        """``assumed (design value)``; else how many repeats it rests on, and its interval."""
        if self.measured is None:
            return ASSUMED
        low, high = (amount(self.measure, end) for end in (self.measured.low, self.measured.high))
        return (
            f"this clinic's own, from {self.measured.pairs} repeats, 95 % interval "
            f"{low.partition(' ')[0]} to {high}"
        )

    @property
    def own_words(self) -> str:
        """A sentence for a judgement, only where the error is not the assumed one."""
        return "" if self.measured is None else f" Measuring error: {self.words}."


@dataclass(frozen=True, slots=True)
class MeasuringErrors:
    """What the judgements of a course use; by default what is assumed."""

    size: UsedError = UsedError(Measure.SIZE, SIZE_SEM.value)
    height: UsedError = UsedError(Measure.HEIGHT, PROTRUSION_SEM.value)
    area: UsedError = UsedError(Measure.AREA, SKIN_SEM_SHARE.value)

    @property
    def of_area(self) -> AreaError:
        found = self.area.measured
        return AreaError() if found is None else AreaError.measured_by(found)


#: What is assumed, of two nurses and of one.
TWO_NURSES: Final = MeasuringErrors()
ONE_NURSE: Final = MeasuringErrors(
    UsedError(Measure.SIZE, SIZE_SEM_ONE.value),
    UsedError(Measure.HEIGHT, PROTRUSION_SEM_ONE.value),
    UsedError(Measure.AREA, SKIN_SEM_SHARE_ONE.value),
)


@dataclass(frozen=True, slots=True)
class Estimate:
    """What the repeats say of one measure, and what is used. ``left_out``: repeats of an area that
    one or both found to be none, of which no share can be taken."""

    measure: Measure
    assumed: float
    found: MeasuredError | TooFew
    used: UsedError
    left_out: int = 0


def estimates(
    repeats: Sequence[Repeat], assumed: MeasuringErrors = TWO_NURSES
) -> tuple[Estimate, Estimate, Estimate]:
    """Size, height and area out of ``repeats``, one a visit."""
    areas = [one.area for one in repeats if one.area is not None]
    above = [pair for pair in areas if min(pair) > 0]
    return (
        _estimate(assumed.size, [pair for one in repeats if (pair := _size(one))], measured_error),
        _estimate(assumed.height, [one.height for one in repeats if one.height], measured_error),
        _estimate(assumed.area, above, measured_share, left_out=len(areas) - len(above)),
    )


def errors_of(repeats: Iterable[Repeat]) -> MeasuringErrors:
    """What is judged with after these ``repeats`` of two nurses."""
    size, height, area = estimates(tuple(repeats))
    return MeasuringErrors(size.used, height.used, area.used)


def _size(one: Repeat) -> Pair | None:
    """Length and width of one visit count as one repeat, or one nurse's slip would count twice:
    a pair as far apart as the root mean square of both."""
    both = [pair for pair in (one.length, one.width) if pair is not None]
    if not both:
        return None
    return 0.0, sqrt(sum((a - b) ** 2 for a, b in both) / len(both))


def _estimate(
    assumed: UsedError,
    pairs: Sequence[Pair],
    by: Callable[[Sequence[Pair]], MeasuredError | TooFew],
    *,
    left_out: int = 0,
) -> Estimate:
    found, used = by(pairs), assumed
    if isinstance(found, MeasuredError) and found.pairs >= LEAST:
        used = UsedError(assumed.measure, _sure(assumed.measure, found.high), found)
    return Estimate(assumed.measure, assumed.sem, found, used, left_out)


def _sure(measure: Measure, high: float) -> float:
    """An area has a least error of its own (``AreaError``)."""
    return high if measure is Measure.AREA else max(high, _FINEST)


def amount(measure: Measure, error: float) -> str:
    """``1.2 mm``, or of an area ``15 %``."""
    check_numbers(error=error, low=0)
    if measure is Measure.AREA:
        return f"{number(100 * error, 0)} %"
    return f"{number(error, 2)} mm"
