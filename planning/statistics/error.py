"""Is a change more than the error of measuring? After Bland and Altman, Lancet 1986, BMJ 1996."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import expm1, log, sqrt
from statistics import NormalDist

from planning.inputs.usable_numbers import check_numbers
from planning.statistics.too_few import TooFew


def within_subject_sd(pairs: Sequence[tuple[float, float]]) -> float | TooFew:
    """Standard error of one measurement, in its unit, out of things measured twice.

    The root of half the mean squared difference; too few below two pairs.
    """
    check_numbers(pairs=pairs, may_be_empty=True)
    if len(pairs) < 2:
        return TooFew(len(pairs), 2, "pairs of measurements")
    return sqrt(sum((a - b) ** 2 for a, b in pairs) / (2 * len(pairs)))


@dataclass(frozen=True, slots=True)
class MeasuredError:
    """Error of one measurement out of ``pairs`` of repeats, in its unit or as a share of it.

    ``low``/``high``: the interval. Few pairs leave it wide, so that a judgement that is to hold
    takes ``high``.
    """

    value: float
    low: float
    high: float
    pairs: int


def measured_error(
    pairs: Sequence[tuple[float, float]], *, confidence: float = 0.95
) -> MeasuredError | TooFew:
    """The within-observer error in its unit: one thing, one posture, measured twice.

    Two postures are two things: such readings are no repeats. Its square times the number of pairs
    is chi-squared with as many degrees of freedom.
    """
    check_numbers(confidence=confidence, above=0, below=1)
    found = within_subject_sd(pairs)
    if isinstance(found, TooFew):
        return found
    from scipy.stats import chi2  # slow to load

    many, tail = len(pairs), (1 - confidence) / 2
    low = found * sqrt(many / float(chi2.isf(tail, many)))
    high = found * sqrt(many / float(chi2.ppf(tail, many)))
    return MeasuredError(found, low, high, many)


def measured_share(
    pairs: Sequence[tuple[float, float]], *, confidence: float = 0.95
) -> MeasuredError | TooFew:
    """The same as a share of what is measured, for what errs the more the larger it is: on
    logarithms (Bland and Altman, BMJ 1996;313:106)."""
    check_numbers(pairs=pairs, above=0, may_be_empty=True)
    found = measured_error([(log(a), log(b)) for a, b in pairs], confidence=confidence)
    if isinstance(found, TooFew):
        return found
    return MeasuredError(expm1(found.value), expm1(found.low), expm1(found.high), found.pairs)


def sem_of_mean(sem: float, readings: int) -> float:
    """Error of the mean of ``readings``, each with error ``sem``."""
    check_numbers(sem=sem, low=0)
    check_numbers(readings=readings, low=1)
    return sem / sqrt(readings)


def smallest_detectable_change(sem: float, *, confidence: float = 0.95) -> float:
    """The least difference of two readings that error alone rarely makes: 2.77 times ``sem``."""
    check_numbers(sem=sem, low=0)
    check_numbers(confidence=confidence, above=0, below=1)
    return NormalDist().inv_cdf(0.5 + confidence / 2) * sqrt(2) * sem


def beyond_error(change: float, sem: float) -> bool:
    """Whether a change of this size, up or down, reaches the smallest detectable one."""
    check_numbers(change=change)
    return abs(change) >= smallest_detectable_change(sem)
