"""How long a barrier lasts until it fails, from a log in which most were changed before they did.

Failed, here as over the course: came off for anything but a planned change. A barrier taken off as
planned or still on had not failed: it counts as lasting to that day and no further (Kaplan and
Meier 1958). Left out of the count, or counted as failed, it would make barriers look worse than
they are.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Final

from planning.evidence.thresholds import WEAR_HELD, WEAR_TYPING_ERROR
from planning.inputs.findings import RemovalReason, WearEpisode
from planning.results.plan import LastingWear
from planning.statistics.survival import Quantile, SurvivalCurve, kaplan_meier
from planning.statistics.too_few import TooFew

SOURCES: Final = ("kaplan1958/curve", "design_value")
_FAILED: Final = frozenset(RemovalReason) - {RemovalReason.PLANNED}
_HOW: Final = "planned changes and barriers still on count as not failed yet"


@lru_cache(maxsize=128)
def lasting(wear: tuple[WearEpisode, ...] | None) -> LastingWear | None:
    """What the log says; None where it holds too few barriers. The same log is worked out once."""
    kept = [e for e in wear or () if e.days <= WEAR_TYPING_ERROR.value]
    curve = kaplan_meier(
        [e.days for e in kept], [e.reason in _FAILED and e.circumstance is None for e in kept]
    )
    if isinstance(curve, TooFew):
        return None
    held = curve.at(WEAR_HELD.value)
    median = curve.median
    return LastingWear(
        barriers=curve.observed,
        failed=curve.failed,
        median_days=median.value,
        median_low=median.low,
        median_high=median.high,
        held_days=WEAR_HELD.value,
        held=None if held is None else held.value,
        held_low=None if held is None else held.low,
        held_high=None if held is None else held.high,
        text=_words(curve),
        sources=SOURCES,
    )


def _words(curve: SurvivalCurve) -> str:
    if not curve.failed:
        return (
            f"None of {curve.observed} barriers failed in up to {_days(curve.times[-1])}: how long "
            f"one lasts until it fails is not known yet ({_HOW})."
        )
    return (
        f"Until a barrier fails (leaks, falls off, itches or hurts): {_half(curve.median)}. "
        f"{_held(curve)} {curve.failed} of {curve.observed} failed; {_HOW}."
    )


def _half(median: Quantile) -> str:
    """When half have failed, with its interval."""
    if median.value is None:
        return "more than half had not failed by the end of the log (median not reached)"
    half = f"half of them last {_days(median.value)} or less (median"
    if median.low is None:
        return f"{half})"
    high = "not reached" if median.high is None else _days(median.high)
    return f"{half}; 95 % interval {median.low:g} to {high})"


def _held(curve: SurvivalCurve) -> str:
    days = WEAR_HELD.value
    held = curve.at(days)
    if held is None:
        return f"No barrier was watched for {_days(days)}."
    share = f"{_percent(held.value)} % hold longer than {_days(days)}"
    if held.low is None or held.high is None:
        return f"{share}."
    return f"{share} (95 % interval {_percent(held.low)} to {_percent(held.high)} %)."


def _days(days: float) -> str:
    return f"{days:g} day{'' if days == 1 else 's'}"


def _percent(share: float) -> int:
    return round(share * 100)
