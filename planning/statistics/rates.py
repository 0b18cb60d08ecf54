"""Counts over time and counts out of a number, with exact intervals."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from planning.inputs.usable_numbers import check_numbers
from planning.statistics.too_few import TooFew

_WEEK = 7.0


@dataclass(frozen=True, slots=True)
class Rate:
    """``events`` in ``days`` watched, as events a week; ``low``/``high`` an exact interval."""

    events: int
    days: float
    per_week: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class RateRatio:
    """The second rate over the first; above 1: more often after. ``high`` may be infinite.

    ``p``: twice the smaller tail, so that it is below the level exactly where the interval of that
    level is beyond 1.
    """

    ratio: float
    low: float
    high: float
    p: float


@dataclass(frozen=True, slots=True)
class Share:
    """A share, 0 to 1, with an exact interval."""

    value: float
    low: float
    high: float


def rate_per_week(events: int, days: float, *, confidence: float = 0.95) -> Rate | TooFew:
    """Events a week out of ``events`` in ``days`` watched; too few where no day was watched.

    The interval is Garwood's (Biometrika 1936), two-sided also where nothing happened.
    """
    check_numbers(days=days, low=0)
    if not days:
        return TooFew(0, 1, "days watched")
    low, high = (limit / days * _WEEK for limit in garwood(events, confidence))
    return Rate(events, days, events / days * _WEEK, low, high)


def garwood(events: int, confidence: float) -> tuple[float, float]:
    """Exact limits of a Poisson mean: half the chi-squared quantiles with 2k and 2k + 2."""
    from scipy.stats import chi2  # slow to load

    check_numbers(events=events, low=0, whole=True)
    check_numbers(confidence=confidence, above=0, below=1)
    tail = (1 - confidence) / 2
    low = float(chi2.ppf(tail, 2 * events)) / 2 if events else 0.0
    return low, float(chi2.isf(tail, 2 * events + 2)) / 2


def compare_rates(
    events_before: int,
    days_before: float,
    events_after: int,
    days_after: float,
    *,
    confidence: float = 0.95,
    drift: float = 0.0,
) -> RateRatio | TooFew:
    """The rate after compared with the rate before, exactly, given how many happened in all.

    Of all events, those after are binomial with the share of days after if nothing changed
    (Przyborowski and Wilenski, Biometrika 1940); the interval is Clopper and Pearson's. ``drift``:
    the standard error, on the scale of logarithms, by which the two rates may differ for no reason;
    the counts then count for less (a design effect, Rao and Scott, Biometrics 1992). Too few where
    no day was watched on one side, or nothing happened on either.
    """
    check_numbers(events_before=events_before, events_after=events_after, low=0, whole=True)
    check_numbers(days_before=days_before, days_after=days_after, drift=drift, low=0)
    check_numbers(confidence=confidence, above=0, below=1)
    if not days_before or not days_after:
        return TooFew(0, 1, "days watched before and after")
    together = events_before + events_after
    if not together:
        return TooFew(0, 1, "events before or after")
    from scipy.special import betaincinv  # slow to load

    share = days_after / (days_before + days_after)
    kept = kept_share(together, share, drift)
    before, after = events_before * kept, events_after * kept
    tail, stretch = (1 - confidence) / 2, days_before / days_after
    low = float(betaincinv(after, before + 1, tail)) if events_after else 0.0
    high = float(betaincinv(after + 1, before, 1 - tail)) if events_before else 1.0
    ratio, low, high = (_odds(part) * stretch for part in (events_after / together, low, high))
    return RateRatio(ratio, low, high, min(1.0, 2 * min(tails(before, after, share))))


def kept_share(together: float, share: float, drift: float) -> float:
    """What of ``together`` events still counts beside a ``drift`` of their rates; ``share`` of them
    come after if nothing changed."""
    check_numbers(together=together, above=0)
    check_numbers(share=share, above=0, below=1)
    check_numbers(drift=drift, low=0)
    chance = 1 / (together * share) + 1 / (together * (1 - share))
    return chance / (chance + drift * drift)


def tails(before: float, after: float, share: float) -> tuple[float, float]:
    """The chance of so few events after, and of so many; parts of events may count."""
    check_numbers(before=before, after=after, low=0)
    check_numbers(share=share, low=0, high=1)
    from scipy.special import betainc  # slow to load

    few = 1.0 - float(betainc(after + 1, before, share)) if before else 1.0
    return few, float(betainc(after, before + 1, share)) if after else 1.0


def proportion(k: int, n: int, *, confidence: float = 0.95) -> Share | TooFew:
    """``k`` out of ``n`` with the exact interval of Clopper and Pearson (Biometrika 1934).

    Too few out of nothing. Raises ``ValueError`` where ``k`` is not between 0 and ``n``.
    """
    check_numbers(k=k, n=n, low=0, whole=True)
    check_numbers(confidence=confidence, above=0, below=1)
    if k > n:
        raise ValueError(f"{k} out of {n} is no share.")
    if not n:
        return TooFew(0, 1, "counted")
    from scipy.stats import binomtest  # slow to load

    limits = binomtest(k, n).proportion_ci(confidence, method="exact")
    return Share(k / n, float(limits.low), float(limits.high))


def _odds(share: float) -> float:
    return float(share / (1 - share)) if share < 1 else inf
