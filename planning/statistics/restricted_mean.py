"""Mean days until something fails, up to a day both groups were watched, and how far two differ.

The area under the curve of Kaplan and Meier up to that day (restricted mean survival time); its
variance is Greenwood's, summed over what is still to come (Klein and Moeschberger, Survival
Analysis, 2003, section 4.5; from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, sqrt
from statistics import NormalDist

from planning.inputs.usable_numbers import check_numbers
from planning.statistics.survival import SurvivalCurve, kaplan_meier
from planning.statistics.too_few import TooFew


@dataclass(frozen=True, slots=True)
class RestrictedMean:
    """Mean days up to day ``until``; ``variance`` of that mean."""

    days: float
    variance: float
    until: float


@dataclass(frozen=True, slots=True)
class MeanDifference:
    """``after`` less ``before``, days up to day ``until``; above 0: longer after."""

    before: float
    after: float
    until: float
    error: float

    @property
    def days(self) -> float:
        return self.after - self.before

    def limits(self, confidence: float) -> tuple[float, float]:
        """The normal interval."""
        check_numbers(confidence=confidence, above=0, below=1)
        reach = NormalDist().inv_cdf((1 + confidence) / 2) * self.error
        return self.days - reach, self.days + reach

    @property
    def p(self) -> float:
        """That chance alone makes so great a difference, up or down."""
        if not self.error:
            return 1.0 if not self.days else 0.0
        return 2 * NormalDist().cdf(-abs(self.days) / self.error)


def restricted_mean(curve: SurvivalCurve, until: float) -> RestrictedMean:
    """The area under ``curve`` up to ``until``, a day by which not all were lost to sight."""
    check_numbers(until=until, low=0)
    ends = [*(t for t in curve.times if t < until), until]
    starts = [0.0, *ends[:-1]]
    heights = [1.0, *curve.survival]
    areas = [(b - a) * high for a, b, high in zip(starts, ends, heights, strict=False)]
    variance, left = 0.0, sum(areas)
    for area, n, d in zip(areas[:-1], curve.at_risk, curve.failures, strict=False):
        left -= area
        if d < n:
            variance += left * left * d / (n * (n - d))
    return RestrictedMean(sum(areas), variance, until)


def compare_means(
    days_before: Sequence[float],
    failed_before: Sequence[bool],
    days_after: Sequence[float],
    failed_after: Sequence[bool],
) -> MeanDifference | TooFew:
    """Both means up to the last day on which something of both groups was watched."""
    before = kaplan_meier(days_before, failed_before)
    after = kaplan_meier(days_after, failed_after)
    if isinstance(before, TooFew) or isinstance(after, TooFew):
        return before if isinstance(before, TooFew) else after  # type: ignore[return-value]
    until = min(_reach(before), _reach(after), max(before.times[-1], after.times[-1]))
    first, then = restricted_mean(before, until), restricted_mean(after, until)
    return MeanDifference(first.days, then.days, until, sqrt(first.variance + then.variance))


def _reach(curve: SurvivalCurve) -> float:
    """Where everything has failed the curve is known for ever."""
    return inf if curve.survival[-1] == 0 else curve.times[-1]
