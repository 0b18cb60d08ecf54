"""One page says one urgency: the highest of the dangers that stand on it.

A sentence that names a later time, and a reassurance, would be read as leave to wait (facts of
2026, danger in symptoms, rule 4: design value). Both are left out while such a danger stands.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date, timedelta
from typing import Final

from django.utils import timezone

from clinic.plans.models import Choice
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.referrals.models import Urgency

#: How soon somebody looks, as a flag's patient words may say it; the first that fits counts.
_TIMES: Final = tuple(
    (urgency, re.compile(words, re.IGNORECASE))
    for urgency, words in (
        (Urgency.EMERGENCY, r"\b(now|at once|immediately)\b"),
        (Urgency.SAME_DAY, r"\b(today|same day)\b"),
        (Urgency.DAYS, r"\b(within|in) (a few |[1-6] )?days\b|\bthis week\b"),
        (Urgency.TWO_WEEKS, r"\b(within|in) (two|2|a few) weeks\b"),
        (Urgency.ROUTINE, r"\bnext (time|visit)\b"),
    )
)
_REASSURES: Final = re.compile(r"\b(all is|is) (still )?(well|fine|normal)\b", re.IGNORECASE)
_SENTENCES: Final = re.compile(r"(?<=[.!?]) ")
#: Days after the visit by which somebody has looked, or was called.
_SEEN_BY: Final = {
    Urgency.SAME_DAY: 0,
    Urgency.TELEPHONE: 0,
    Urgency.DAYS: 3,
    Urgency.TWO_WEEKS: 14,
}


def rank(urgency: Urgency) -> int:
    """0 is the most urgent."""
    return list(Urgency).index(urgency)


def level_of(decided: DecidedPlan) -> Urgency | None:
    """The highest urgency short of an emergency among the flags the patient is told of; None
    where none stands."""
    standing = [
        Urgency(flag.urgency.value)
        for flag, decision in zip(decided.plan.red_flags, decided.flags, strict=True)
        if flag.patient_text and decision.choice not in {None, Choice.DROPPED}
    ]
    lesser = [urgency for urgency in standing if urgency != Urgency.EMERGENCY]
    return min(lesser, key=rank, default=None)


def danger_stands(decided: DecidedPlan) -> bool:
    """Whether any flag was not dropped, the patient told of it or not: nothing then reassures."""
    return any(decision.choice not in {None, Choice.DROPPED} for decision in decided.flags)


def without_later(text: str, level: Urgency) -> str:
    """``text`` without sentences that name a later time than ``level``; "" if all do.

    >>> without_later("It has opened. The team will look within days.", Urgency.SAME_DAY)
    'It has opened.'
    """
    return _kept(text, lambda said: (at := _named(said)) is None or rank(at) <= rank(level))


def without_reassurance(text: str) -> str:
    """``text`` without sentences that say all is well.

    >>> without_reassurance("To look at your skin. To check that all is well.")
    'To look at your skin.'
    """
    return _kept(text, lambda said: not _REASSURES.search(said))


def pressing(level: Urgency | None) -> bool:
    """Whether somebody must look before the next visit."""
    return level is not None and level != Urgency.ROUTINE


def comes_too_late(day: date | None, decided: DecidedPlan, level: Urgency | None) -> bool:
    """Whether a visit on ``day`` lies beyond the time in which somebody must look."""
    within = _SEEN_BY.get(level) if level else None
    if day is None or within is None:
        return False
    seen = timezone.localdate(decided.assessment.visit.happened_at)
    return day > seen + timedelta(days=within)


def _named(sentence: str) -> Urgency | None:
    return next((urgency for urgency, words in _TIMES if words.search(sentence)), None)


def _kept(text: str, stays: Callable[[str], bool]) -> str:
    return " ".join(said for said in _SENTENCES.split(text) if stays(said))
