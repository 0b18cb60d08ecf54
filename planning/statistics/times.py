"""Times to failure with those still lasting among them, checked once for every method."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64]
Counts = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Times:
    """Sorted times of the failures, and of those last seen still lasting (``censored``)."""

    failed: Numbers
    censored: Numbers

    @property
    def observed(self) -> int:
        return len(self.failed) + len(self.censored)

    def at_risk(self, times: Numbers) -> Counts:
        """How many were watched and lasting just before each of ``times``."""
        gone = np.searchsorted(self.failed, times) + np.searchsorted(self.censored, times)
        return np.asarray(self.observed - gone, dtype=np.int64)

    def failures(self, times: Numbers) -> Counts:
        """How many failed at exactly each of ``times``."""
        after = np.searchsorted(self.failed, times, side="right")
        return np.asarray(after - np.searchsorted(self.failed, times), dtype=np.int64)

    def as_censored(self) -> Any:
        """As SciPy takes them."""
        from scipy import stats  # slow to load

        return stats.CensoredData(uncensored=self.failed, right=self.censored)


def times_of(
    days: Sequence[float], failed: Sequence[bool], counts: Sequence[int] | None = None
) -> Times:
    """``days`` and whether each ended by failing; ``counts[i]`` of each, one where not given.

    Raises ``ValueError`` for unequal lengths, a negative time or count, or what is no number.
    """
    many = [1] * len(days) if counts is None else counts
    if not len(days) == len(failed) == len(many):
        raise ValueError("Times, answers whether they failed and counts differ in number.")
    times, ended = np.asarray(days, dtype=np.float64), np.asarray(failed, dtype=bool)
    if not np.all(np.isfinite(times)) or np.any(times < 0) or any(n < 0 for n in many):
        raise ValueError("A time is a number of days from 0 on, a count a whole number from 0 on.")
    each, end = np.repeat(times, many), np.repeat(ended, many)
    return Times(np.sort(each[end]), np.sort(each[~end]))
