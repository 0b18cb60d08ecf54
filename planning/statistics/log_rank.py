"""Do two groups fail at different times? The log-rank test (Mantel, Cancer Chemother Rep 1966)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import erfc, sqrt

import numpy as np

from planning.evidence.thresholds import LEAST_FAILURES
from planning.inputs.usable_numbers import check_numbers
from planning.statistics.times import Times, times_of
from planning.statistics.too_few import TooFew


@dataclass(frozen=True, slots=True)
class LogRank:
    """``chi2`` with one degree of freedom; ``observed``/``expected`` failures of the first group.

    ``expected``: how many of them there would be if both groups failed alike.
    """

    chi2: float
    p: float
    observed: int
    expected: float

    def p_of(self, kept: float) -> float:
        """The p-value where so much of the failures counts (``rates.kept_share``)."""
        check_numbers(kept=kept, low=0, high=1)
        return erfc(sqrt(self.chi2 * kept / 2))


def log_rank(
    days_a: Sequence[float],
    failed_a: Sequence[bool],
    days_b: Sequence[float],
    failed_b: Sequence[bool],
) -> LogRank | TooFew:
    """Compares two groups of times, each ended by a failure or (False) last seen still lasting.

    The p-value is an approximation that wants numbers: too few below ``LEAST_FAILURES`` failures
    in both groups together, and where nothing failed while both groups were watched.
    """
    a, b = times_of(days_a, failed_a), times_of(days_b, failed_b)
    together = len(a.failed) + len(b.failed)
    if together < LEAST_FAILURES.value:
        return TooFew(together, int(LEAST_FAILURES.value), "failures in both groups")
    beside, expected = _expected(a, b)
    if not beside:
        return TooFew(0, 1, "failures while both groups were watched")
    from scipy import stats  # slow to load

    result = stats.logrank(a.as_censored(), b.as_censored())
    return LogRank(float(result.statistic**2), float(result.pvalue), len(a.failed), expected)


def _expected(a: Times, b: Times) -> tuple[int, float]:
    """Times that compare the groups at all, and the failures expected of the first."""
    times = np.unique(np.concatenate([a.failed, b.failed]))
    risk_a, risk_b = a.at_risk(times), b.at_risk(times)
    failures = a.failures(times) + b.failures(times)
    tells = (risk_a > 0) & (risk_b > 0) & (failures < risk_a + risk_b)
    return int(np.sum(tells)), float(np.sum(risk_a * failures / (risk_a + risk_b)))
