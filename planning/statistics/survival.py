"""Time until something happens, some of it not yet seen (right-censored): Kaplan and Meier.

Times are days here, but any unit goes in and comes out again. Who is still waiting counts as
at risk until the day last seen, and then leaves; a failure on that same day comes first.

Interval: Greenwood's variance on the log(-log) scale (Kalbfleisch and Prentice, The Statistical
Analysis of Failure Time Data, 1980), which stays between 0 and 1.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np

from planning.evidence.thresholds import LEAST_EPISODES
from planning.inputs.usable_numbers import check_numbers
from planning.statistics.log_rank import LogRank, log_rank
from planning.statistics.times import Times, times_of
from planning.statistics.too_few import TooFew

__all__ = [
    "Estimate",
    "LogRank",
    "Quantile",
    "SurvivalCurve",
    "kaplan_meier",
    "kaplan_meier_counted",
    "log_rank",
]

#: A product of fractions may land a hair above the level it stands for.
_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Estimate:
    """A share, 0 to 1. ``low``/``high`` None: the formula gives no interval, because nothing has
    failed yet (share 1) or nothing is left (share 0)."""

    value: float
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class Quantile:
    """A time, days. None is *not reached*: so far too many still last to name a day."""

    value: float | None
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class SurvivalCurve:
    """The share still lasting after each day on which something failed or was last seen."""

    times: tuple[float, ...]
    at_risk: tuple[int, ...]
    failures: tuple[int, ...]
    survival: tuple[float, ...]
    low: tuple[float | None, ...]
    high: tuple[float | None, ...]

    @property
    def observed(self) -> int:
        """How many times went in."""
        return self.at_risk[0]

    @property
    def failed(self) -> int:
        """How many of them were failures; the rest was still lasting."""
        return sum(self.failures)

    def at(self, time: float) -> Estimate | None:
        """The share lasting longer than ``time``; None past the last day anyone was watched."""
        check_numbers(time=time, low=0)
        if time < self.times[0]:
            return Estimate(1.0, None, None)
        if time > self.times[-1] and self.survival[-1] > 0:
            return None
        i = bisect_right(self.times, time) - 1
        return Estimate(self.survival[i], self.low[i], self.high[i])

    @property
    def median(self) -> Quantile:
        """When half have failed; the interval is where the band crosses one half.

        Source: Brookmeyer and Crowley, Biometrics 1982.
        """
        return Quantile(*(self._halved(curve) for curve in (self.survival, self.low, self.high)))

    def _halved(self, curve: Sequence[float | None]) -> float | None:
        for time, value in zip(self.times, curve, strict=True):
            if value is not None and value <= 0.5 + _ROUNDING:
                return time
        return None


def kaplan_meier(
    days: Sequence[float], failed: Sequence[bool], *, confidence: float = 0.95
) -> SurvivalCurve | TooFew:
    """The curve of ``days``, each ended by a failure or (False) last seen still lasting.

    Too few below ``LEAST_EPISODES`` times. Raises ``ValueError`` for unequal lengths.
    """
    check_numbers(confidence=confidence, above=0, below=1)
    return _curve(times_of(days, failed), confidence)


def kaplan_meier_counted(
    days: Sequence[float],
    failed: Sequence[bool],
    counts: Sequence[int],
    *,
    confidence: float = 0.95,
) -> SurvivalCurve | TooFew:
    """The same where equal times were counted together: ``counts[i]`` times ``days[i]``."""
    check_numbers(confidence=confidence, above=0, below=1)
    return _curve(times_of(days, failed, counts), confidence)


def _curve(watched: Times, confidence: float) -> SurvivalCurve | TooFew:
    if watched.observed < LEAST_EPISODES.value:
        return TooFew(watched.observed, int(LEAST_EPISODES.value), "observations")
    days = sorted({*watched.failed.tolist(), *watched.censored.tolist()})
    times = np.asarray(days)
    at_risk, failures = watched.at_risk(times).tolist(), watched.failures(times).tolist()
    survival, low, high = [], [], []
    share, variance = 1.0, 0.0
    z = NormalDist().inv_cdf((1 + confidence) / 2)
    for n, d in zip(at_risk, failures, strict=True):
        share *= (n - d) / n
        variance += d / (n * (n - d)) if d < n else math.inf
        least, most = _band(share, z * math.sqrt(variance))
        survival.append(share)
        low.append(least)
        high.append(most)
    return SurvivalCurve(
        tuple(days),
        tuple(at_risk),
        tuple(failures),
        tuple(survival),
        tuple(low),
        tuple(high),
    )


def _band(share: float, reach: float) -> tuple[float | None, float | None]:
    """Greenwood's interval on the log(-log) scale; ``reach``: the normal quantile times the square
    root of his sum. None where nothing or everything has failed."""
    if not 0 < share < 1:
        return None, None
    power = math.exp(-reach / math.log(share))
    return share**power, share ** (1 / power)
