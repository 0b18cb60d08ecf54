"""Longer wear since the plan? Mean days until a barrier fails, from curves of Kaplan and Meier.

A barrier fails when it comes off for anything but a planned change; a planned change, or still on,
says only that it lasted so long. So planned changes alone never make wear shorter.

Rule: enough barriers and failures on both sides. *Helped* or *worse*: the interval of the
difference of the means is beyond 0, and so says the log-rank test: with few barriers either alone
errs more often than it says. *No different*: the difference lies within ``WEAR_MARGIN`` for certain
enough and so do the failures a week within theirs, for where planned changes end most wear the
means cannot differ by much. Longer only against the time that made the visit is not *helped*.
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from math import sqrt

from planning.course.margin import (
    AT_A_LOOK,
    SOURCES,
    after,
    interval_words,
    rates_answer,
    season,
)
from planning.course.number_words import number
from planning.course.periods import Wear
from planning.course.results import Finding, Judged, Verdict
from planning.course.too_little_wear import NO_WHOLE_DAY, too_few
from planning.evidence.thresholds import ALIKE_LEVEL, WEAR_COMPARED, WEAR_MARGIN
from planning.inputs.usable_numbers import check_numbers
from planning.statistics.answer import Answer, answer
from planning.statistics.rates import kept_share
from planning.statistics.restricted_mean import MeanDifference, compare_means
from planning.statistics.survival import SurvivalCurve, kaplan_meier, log_rank
from planning.statistics.too_few import TooFew

_SOURCES = ("kaplan1958/curve", "mantel1966/log_rank", *SOURCES)
#: Days at which the share still holding is read.
DAYS = WEAR_COMPARED.value
_UNIT = f"% holding longer than {DAYS:g} days"


def judge_wear(
    before: Wear | None,
    since: Wear | None,
    *,
    level: float = AT_A_LOOK,
    fair: bool = True,
    gap: float = 0.0,
) -> Finding:
    """Time until a barrier fails, before and since; ``level``, ``fair`` and ``gap`` as for
    leaks."""
    check_numbers(level=level, above=0, below=1)
    check_numbers(gap=gap, low=0)
    missing = too_few(before, since)
    if missing or before is None or since is None:
        return Finding(Judged.WEAR, Verdict.CANNOT_TELL, f"Wear {missing}", _SOURCES)
    return _judge(before, since, level, fair, gap)


@lru_cache(maxsize=256)
def _judge(before: Wear, since: Wear, level: float, fair: bool, gap: float) -> Finding:
    first, then = (kaplan_meier(w.days, w.failed) for w in (before, since))
    means = compare_means(before.days, before.failed, since.days, since.failed)
    assert not isinstance(first, TooFew)  # noqa: S101
    assert not isinstance(then, TooFew) and not isinstance(means, TooFew)  # noqa: S101, PT018
    held = _holding(first), _holding(then)
    if not before.failures + since.failures:
        text = "No barrier failed before or since."
        return Finding(Judged.WEAR, Verdict.CANNOT_TELL, text, _SOURCES, *held, _UNIT)
    found = log_rank(since.days, since.failed, before.days, before.failed)
    if isinstance(found, TooFew):
        not_shown = after(Verdict.CANNOT_TELL, settles=False)
        text = f"{_held_words(first, then)} ({found.words}).{not_shown}"
        return Finding(Judged.WEAR, Verdict.CANNOT_TELL, text, _SOURCES, *held, _UNIT)
    if not before.exposure or not since.exposure:
        text = f"Wear {NO_WHOLE_DAY}"
        return Finding(Judged.WEAR, Verdict.CANNOT_TELL, text, _SOURCES, *held, _UNIT)
    drift = season(gap)
    share = since.exposure / (before.exposure + since.exposure)
    kept = kept_share(before.failures + since.failures, share, drift)
    means = replace(means, error=means.error / sqrt(kept))
    longer = means.days > 0
    apart = longer is not (found.observed < found.expected)
    chance = 1.0 if apart else max(found.p_of(kept), means.p)
    clear = chance <= level
    settles = clear and longer and not fair
    verdict = Verdict.CANNOT_TELL
    if clear and not settles:
        verdict = Verdict.HELPED if longer else Verdict.WORSE
    elif fair and _alike(before, since, means, level, drift):
        verdict = Verdict.NO_DIFFERENT
    text = (
        f"{_held_words(first, then)}. Up to day {number(means.until)} a barrier held "
        f"{number(means.before)} days on average before and {number(means.after)} since "
        f"({_difference(means, level)}).{after(verdict, settles=settles)}"
    )
    return Finding(
        Judged.WEAR,
        verdict,
        text,
        _SOURCES,
        *held,
        _UNIT,
        1.0 if settles else chance,
        settles=settles,
    )


def _alike(before: Wear, since: Wear, means: MeanDifference, level: float, drift: float) -> bool:
    wide, narrow = (means.limits(1 - beyond) for beyond in (level, ALIKE_LEVEL.value))
    most = WEAR_MARGIN.value
    counts = before.failures, before.exposure, since.failures, since.exposure
    both = answer(wide, narrow, (-most, most), 0.0), rates_answer(*counts, level, drift)
    return set(both) == {Answer.ALIKE}


def _difference(means: MeanDifference, level: float) -> str:
    """Without an interval where every time in a group was the same: it would be none."""
    said = f"difference {number(means.days)}"
    if not means.error:
        return said
    low, high = means.limits(1 - level)
    return f"{said}, {interval_words(level)} {number(low)} to {number(high)}"


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
