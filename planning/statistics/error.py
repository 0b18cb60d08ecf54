"""Is a change more than the error of measuring? After Bland and Altman, Lancet 1986, BMJ 1996."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt
from statistics import NormalDist

from planning.statistics.too_few import TooFew


def within_subject_sd(pairs: Sequence[tuple[float, float]]) -> float | TooFew:
    """Standard error of one measurement, in its unit, out of things measured twice.

    The root of half the mean squared difference; too few below two pairs.
    """
    if len(pairs) < 2:
        return TooFew(len(pairs), 2, "pairs of measurements")
    return sqrt(sum((a - b) ** 2 for a, b in pairs) / (2 * len(pairs)))


def sem_of_mean(sem: float, readings: int) -> float:
    """Error of the mean of ``readings``, each with error ``sem``."""
    if readings < 1:
        raise ValueError("A mean has at least one reading.")
    return sem / sqrt(readings)


def smallest_detectable_change(sem: float, *, confidence: float = 0.95) -> float:
    """The least difference of two readings that error alone rarely makes: 2.77 times ``sem``."""
    if sem < 0:
        raise ValueError("An error of measuring is not negative.")
    return NormalDist().inv_cdf(0.5 + confidence / 2) * sqrt(2) * sem


def beyond_error(change: float, sem: float) -> bool:
    """Whether a change of this size, up or down, reaches the smallest detectable one."""
    return abs(change) >= smallest_detectable_change(sem)
