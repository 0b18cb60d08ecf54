"""One page says one urgency: the highest of the dangers on it.

A sentence that names a later time, and a reassurance, would be read as leave to wait (facts of
2026, danger in symptoms, rule 4: design value). Both are left out while there is such a danger.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import Final

from django.utils import timezone

from clinic.documents.patient_language.named_times import reassures, time_named
from clinic.plans.models import Choice
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.referrals.models import Urgency
from planning.results.message import Message, Text

#: As a heading for the patient.
LOOK_TITLES: Final = {
    Urgency.SAME_DAY: "You need to be seen today",
    Urgency.TELEPHONE: "A telephone call is needed today",
    Urgency.DAYS: "You need to be seen within 3 days",
    Urgency.TWO_WEEKS: "You need to be seen within 2 weeks",
    Urgency.ROUTINE: "We will look at this next time",
}
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


def has_emergency(decided: DecidedPlan) -> bool:
    """Whether an emergency is left after deciding: there was a sign of one, and the clinician did
    not drop each. An urgent plan without a named sign counts as one."""
    signs = [
        decision
        for flag, decision in zip(decided.plan.red_flags, decided.flags, strict=True)
        if flag.urgency.value == Urgency.EMERGENCY
    ]
    if not signs:
        return bool(decided.plan.urgency.value == Urgency.EMERGENCY)
    return any(decision.choice != Choice.DROPPED for decision in signs)


def level_of(decided: DecidedPlan) -> Urgency | None:
    """The highest urgency short of an emergency among the flags shown to the patient; None
    where there is none."""
    standing = [
        Urgency(flag.urgency.value)
        for flag, decision in zip(decided.plan.red_flags, decided.flags, strict=True)
        if flag.patient_text and decision.choice not in {None, Choice.DROPPED}
    ]
    lesser = [urgency for urgency in standing if urgency != Urgency.EMERGENCY]
    return min(lesser, key=rank, default=None)


def has_danger(decided: DecidedPlan) -> bool:
    """Whether any flag was not dropped, shown to the patient or not: nothing then reassures."""
    return any(decision.choice not in {None, Choice.DROPPED} for decision in decided.flags)


def without_later(text: Text, level: Urgency) -> Text:
    """``text`` without sentences that name a later time than ``level``; empty if all do.

    >>> text = to_patient("It has opened. The team will look within days.")
    >>> print(without_later(text, Urgency.SAME_DAY))
    It has opened.
    """
    return _kept(text, lambda one: (at := time_named(one)) is None or rank(at) <= rank(level))


def without_reassurance(text: Text) -> Text:
    """``text`` without sentences that say all is well.

    >>> print(without_reassurance(to_patient("To look at your skin. To check that all is well.")))
    To look at your skin.
    """
    return _kept(text, lambda one: not reassures(one))


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


def _kept(text: Text, stays: Callable[[Message], bool]) -> Text:
    """Of each message the sentences that stay: together they are one of the catalogues again."""
    kept = ((one, [part for part in one.sentences if stays(part)]) for one in text.messages)
    return Text(tuple(one.joined(parts) for one, parts in kept if parts))
