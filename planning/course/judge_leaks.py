"""Fewer leaks since the plan? Rates a week, compared exactly.

Rule: at least ``OUTCOME_BARRIERS`` barriers taken off before and since. The exact interval of the
rate since over the rate before decides (``margin``). A rate that is lower only against the time
that made the visit is not *helped*: it would partly settle anyway.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from planning.course.looks import WINDOW
from planning.course.margin import (
    AT_A_LOOK,
    SOURCES,
    after,
    interval_words,
    rates_answer,
    season,
)
from planning.course.number_words import count, number
from planning.course.periods import Wear
from planning.course.results import Finding, Judged, Verdict
from planning.course.too_little_wear import NO_WHOLE_DAY, too_few
from planning.evidence.thresholds import POWER, RUN_IN
from planning.inputs.usable_numbers import check_numbers
from planning.statistics.answer import Answer
from planning.statistics.power import weeks_to_show
from planning.statistics.rates import RateRatio, compare_rates
from planning.statistics.too_few import TooFew

_SOURCES = ("przyborowski1940/rates", "rao1992/effect", *SOURCES)
_UNIT = "leaks a week"
_VERDICT = {
    Answer.LOWER: Verdict.HELPED,
    Answer.HIGHER: Verdict.WORSE,
    Answer.ALIKE: Verdict.NO_DIFFERENT,
    Answer.OPEN: Verdict.CANNOT_TELL,
}


def judge_leaks(
    before: Wear | None,
    since: Wear | None,
    *,
    level: float = AT_A_LOOK,
    fair: bool = True,
    gap: float = 0.0,
) -> Finding:
    """Leaks (barriers that leaked or fell off) a week, before and since. ``level``: the chance
    allowed. ``fair``: ``before`` holds more than the time that made the visit. ``gap``: days
    between the middles of both, by which the season may differ."""
    check_numbers(level=level, above=0, below=1)
    check_numbers(gap=gap, low=0)
    missing = too_few(before, since)
    if missing or before is None or since is None:
        return Finding(Judged.LEAKS, Verdict.CANNOT_TELL, f"Leaks {missing}", _SOURCES)
    return _judge(before.leaks, before.exposure, since.leaks, since.exposure, level, fair, gap)


@lru_cache(maxsize=256)
def _judge(
    leaks: int,
    days: float,
    leaks_since: int,
    days_since: float,
    level: float,
    fair: bool,
    gap: float,
) -> Finding:
    drift = season(gap)
    found = compare_rates(leaks, days, leaks_since, days_since, confidence=1 - level, drift=drift)
    if not days or not days_since:
        text = f"Leaks {NO_WHOLE_DAY}"
        return Finding(Judged.LEAKS, Verdict.CANNOT_TELL, text, _SOURCES)
    before, since = leaks / days * 7, leaks_since / days_since * 7
    if isinstance(found, TooFew):
        text = f"No leak in {_days(days)} before and none in {_days(days_since)} since."
        return Finding(Judged.LEAKS, Verdict.CANNOT_TELL, text, _SOURCES, before, since, _UNIT)
    told = rates_answer(leaks, days, leaks_since, days_since, level, drift)
    settles = told is Answer.LOWER and not fair
    verdict = _VERDICT[told] if fair or told is Answer.HIGHER else Verdict.CANNOT_TELL
    text = (
        f"Leaks a week {_went(number(before, 2), number(since, 2))} "
        f"({count(leaks, 'leak')} in {_days(days)} before, {leaks_since} in "
        f"{_days(days_since)} since; {_times(found, level)}).{after(verdict, settles=settles)}"
    )
    if verdict is Verdict.CANNOT_TELL and not settles:
        text += halving_words(leaks, days, level)
    chance = 1.0 if settles else found.p
    return Finding(
        Judged.LEAKS, verdict, text, _SOURCES, before, since, _UNIT, chance, settles=settles
    )


def halving_words(leaks: int, days: float, level: float) -> str:
    """How long a diary it takes to see so much, in ``POWER`` of cases; "" where none leaked."""
    check_numbers(leaks=leaks, days=days, low=0)
    check_numbers(level=level, above=0, below=1)
    if not leaks:
        return ""
    most = WINDOW // 7
    weeks = weeks_to_show(
        leaks, days, 0.5, level=level, power=POWER.value, most=most, drift_after=_Drift(days)
    )
    if weeks is None:
        return f" With this diary, a halving does not show within {most} weeks."
    return f" With this diary, a halving shows after about {count(weeks, 'week')}."


@dataclass(frozen=True, slots=True)
class _Drift:
    """By how much the season may differ when so many days have passed since the plan."""

    before: float

    def __call__(self, after: float) -> float:
        return season(self.before / 2 + RUN_IN.value + after / 2)


def _times(found: RateRatio, level: float) -> str:
    limits = " to ".join(number(limit, 2) for limit in (found.low, found.high))
    limits = limits.replace("inf", "no limit")
    return f"{number(found.ratio, 2)} times, {interval_words(level)} {limits}".replace(
        "inf times", "none before"
    )


def _went(before: str, since: str) -> str:
    return f"stayed at {since}" if before == since else f"went from {before} to {since}"


def _days(days: float) -> str:
    said = number(days)
    return f"{said} {'day' if said == '1' else 'days'}"
