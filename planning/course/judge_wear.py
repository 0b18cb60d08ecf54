"""Longer wear since the plan? Kaplan-Meier curves, compared by the log-rank test.

A barrier fails when it comes off for anything but a planned change; a planned change, or still on,
says only that it lasted so long. Rule as for leaks: enough barriers on both sides; a difference
that chance makes in fewer than ``OUTCOME_P`` of cases counts; without one, failure rates (observed
over expected) within ``OUTCOME_TIMES`` of one another over at least ``OUTCOME_EVENTS`` failures, or
no failure at all, are *no different*.
"""

from __future__ import annotations

from functools import lru_cache
from math import inf

from planning.course.number_words import chance, doubt, number
from planning.course.periods import Wear
from planning.course.results import Finding, Judged, Verdict
from planning.course.too_little_wear import too_few
from planning.evidence.thresholds import OUTCOME_EVENTS, OUTCOME_P, OUTCOME_TIMES, WEAR_COMPARED
from planning.statistics.survival import LogRank, SurvivalCurve, kaplan_meier, log_rank
from planning.statistics.too_few import TooFew

_SOURCES = ("kaplan1958/curve", "mantel1966/log_rank", "design_value")
#: Days at which the share still holding is read.
DAYS = WEAR_COMPARED.value
_UNIT = f"% holding longer than {DAYS:g} days"


def judge_wear(before: Wear | None, since: Wear | None) -> Finding:
    """Time until a barrier fails, before and since."""
    missing = too_few(before, since)
    if missing or before is None or since is None:
        return Finding(Judged.WEAR, Verdict.CANNOT_TELL, f"Wear {missing}", _SOURCES)
    return _judge(before.days, before.failed, since.days, since.failed)


@lru_cache(maxsize=256)
def _judge(
    days: tuple[float, ...],
    failed: tuple[bool, ...],
    days_since: tuple[float, ...],
    failed_since: tuple[bool, ...],
) -> Finding:
    before, since = kaplan_meier(days, failed), kaplan_meier(days_since, failed_since)
    assert not isinstance(before, TooFew) and not isinstance(since, TooFew)  # noqa: S101, PT018
    found = log_rank(days_since, failed_since, days, failed)
    failures = sum(failed) + sum(failed_since)
    verdict, why = _verdict(found, failures)
    text = "No barrier failed before or since."
    if failures:
        chance_left = "" if isinstance(found, TooFew) else doubt(verdict)
        text = f"{_held_words(before, since)}{why}.{chance_left}"
    return Finding(Judged.WEAR, verdict, text, _SOURCES, _holding(before), _holding(since), _UNIT)


def _verdict(found: LogRank | TooFew, failures: int) -> tuple[Verdict, str]:
    if not failures:
        return Verdict.NO_DIFFERENT, ""
    if isinstance(found, TooFew):
        return Verdict.CANNOT_TELL, f" ({found.words})"
    if found.p < OUTCOME_P.value:
        fewer = found.observed < found.expected
        return Verdict.HELPED if fewer else Verdict.WORSE, f" ({chance(found.p)})"
    times = _times(found, failures)
    alike = 1 / OUTCOME_TIMES.value < times < OUTCOME_TIMES.value
    enough = alike and failures >= OUTCOME_EVENTS.value
    return Verdict.NO_DIFFERENT if enough else Verdict.CANNOT_TELL, f" ({chance(found.p)})"


def _times(found: LogRank, failures: int) -> float:
    """How many times as often barriers fail since, observed over expected in both groups."""
    # Something failed while both groups were watched, so in neither is none expected.
    rate = (failures - found.observed) / (failures - found.expected)
    return found.observed / found.expected / rate if rate else inf


def _held_words(before: SurvivalCurve, since: SurvivalCurve) -> str:
    """The median times to failure: half held so long; None where fewer than half failed."""
    first, then = before.median.value, since.median.value
    if first is None and then is None:
        return f"Before and since, {_held(None, ' of the barriers')}"
    return f"Before, {_held(first, ' of the barriers')}; since, {_held(then, '')}"


def _held(value: float | None, of_them: str) -> str:
    if value is None:
        return f"more than half{of_them} held as long as they were worn"
    return f"half{of_them} held {number(value)} {'day' if value == 1 else 'days'}"


def _holding(curve: SurvivalCurve) -> float | None:
    estimate = curve.at(DAYS)
    return None if estimate is None else round(100 * estimate.value, 1)
