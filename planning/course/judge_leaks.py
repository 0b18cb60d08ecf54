"""Fewer leaks since the plan? Rates a week, compared exactly.

Rule: at least ``OUTCOME_BARRIERS`` barriers taken off before and since. A difference that chance
makes in fewer than ``OUTCOME_P`` of cases counts: fewer is *helped*, more is *worse*. Without one,
rates within ``OUTCOME_TIMES`` of one another over at least ``OUTCOME_EVENTS`` leaks, or no leak at
all, are *no different*; anything else may be chance: *cannot tell*.
"""

from __future__ import annotations

from functools import lru_cache

from planning.course.number_words import chance, count, doubt, number
from planning.course.periods import Wear
from planning.course.results import Finding, Judged, Verdict
from planning.course.too_little_wear import CANNOT_COMPARE, too_few
from planning.evidence.thresholds import OUTCOME_EVENTS, OUTCOME_P, OUTCOME_TIMES
from planning.statistics.rates import RateRatio, compare_rates
from planning.statistics.too_few import TooFew

_SOURCES = ("przyborowski1940/rates", "design_value")
_UNIT = "leaks a week"


def judge_leaks(before: Wear | None, since: Wear | None) -> Finding:
    """Leaks (barriers that leaked or fell off) a week, before and since."""
    missing = too_few(before, since)
    if missing or before is None or since is None:
        return Finding(Judged.LEAKS, Verdict.CANNOT_TELL, f"Leaks {missing}", _SOURCES)
    return _judge(before.leaks, before.exposure, since.leaks, since.exposure)


@lru_cache(maxsize=256)
def _judge(leaks: int, days: float, leaks_since: int, days_since: float) -> Finding:
    found = compare_rates(leaks, days, leaks_since, days_since)
    if not days or not days_since:
        text = f"Leaks {CANNOT_COMPARE}no barrier was worn for a whole day."
        return Finding(Judged.LEAKS, Verdict.CANNOT_TELL, text, _SOURCES)
    before, since = leaks / days * 7, leaks_since / days_since * 7
    if isinstance(found, TooFew):
        text = f"No leak in {_days(days)} before and none in {_days(days_since)} since."
        verdict = Verdict.NO_DIFFERENT
    else:
        # Crosswise, so that no rounding moves a limit: whole leaks times whole days.
        verdict = _verdict(found, leaks + leaks_since, leaks_since * days, leaks * days_since)
        text = (
            f"Leaks a week {_went(number(before, 2), number(since, 2))} "
            f"({count(leaks, 'leak')} in {_days(days)} before, {leaks_since} in "
            f"{_days(days_since)} since; {chance(found.p)}).{doubt(verdict)}"
        )
    return Finding(Judged.LEAKS, verdict, text, _SOURCES, before, since, _UNIT)


def _verdict(found: RateRatio, leaks: int, since: float, before: float) -> Verdict:
    """``since`` and ``before``: the two rates on one scale."""
    if found.p < OUTCOME_P.value:
        return Verdict.HELPED if since < before else Verdict.WORSE
    alike = max(since, before) < OUTCOME_TIMES.value * min(since, before)
    enough = leaks >= OUTCOME_EVENTS.value
    return Verdict.NO_DIFFERENT if alike and enough else Verdict.CANNOT_TELL


def _went(before: str, since: str) -> str:
    return f"stayed at {since}" if before == since else f"went from {before} to {since}"


def _days(days: float) -> str:
    said = number(days)
    return f"{said} {'day' if said == '1' else 'days'}"
