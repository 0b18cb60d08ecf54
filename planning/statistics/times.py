"""Times to failure with those still lasting among them, checked once for every method."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from planning.inputs.usable_numbers import check_numbers

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
        gone = self.failed.searchsorted(times) + self.censored.searchsorted(times)
        return np.asarray(self.observed - gone, dtype=np.int64)

    def failures(self, times: Numbers) -> Counts:
        """How many failed at exactly each of ``times``."""
        after = self.failed.searchsorted(times, side="right")
        return np.asarray(after - self.failed.searchsorted(times), dtype=np.int64)

    def as_censored(self) -> Any:
        """As SciPy takes them."""
        from scipy import stats  # slow to load

        return stats.CensoredData(uncensored=self.failed, right=self.censored)


def times_of(
    days: Sequence[float], failed: Sequence[bool], counts: Sequence[int] | None = None
) -> Times:
    """``days`` and whether each ended by failing; ``counts[i]`` of each, one where not given.

    Raises ``ValueError`` for unequal lengths.
    """
    check_numbers(days=np.asarray(days, dtype=np.float64), low=0, may_be_empty=True)
    check_numbers(counts=counts, low=0, may_be_empty=True)
    if not len(days) == len(failed) == len(days if counts is None else counts):
        raise ValueError("Times, answers whether they failed and counts differ in number.")
    each, end = np.asarray(days, dtype=np.float64), np.asarray(failed, dtype=bool)
    if counts is not None:
        each, end = each.repeat(counts), end.repeat(counts)
    failures, censored = each[end], each[~end]
    failures.sort()
    censored.sort()
    return Times(failures, censored)
