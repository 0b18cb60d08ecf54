"""When to see the person again: the earliest of every reason to."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from planning.chosen import Chosen
from planning.findings import StomaKind
from planning.plan import FollowUp, Reason, Urgency
from planning.situation import Situation
from planning.sources import DESIGN, PRACTICE
from planning.thresholds import (
    FOLLOW_CHANGE,
    FOLLOW_NEXT_DAY,
    FOLLOW_SKIN,
    FOLLOW_SOON,
    FOLLOW_TWO_WEEKS,
    PRESSURE_CHECK,
)

#: Routine visits, days after surgery; then yearly (design value: no society publishes intervals).
ROUTINE_DAYS: Final = (3, 14, 42, 90, 180, 365)
_YEAR: Final = 365
#: A new ileostomy is phoned for dehydration, a frequent reason for readmission (Vogel 2022).
_ILEOSTOMY_CALL: Final = 7

_BY_URGENCY: Final = {
    Urgency.EMERGENCY: (
        FOLLOW_NEXT_DAY,
        "An emergency: hear how it went.",
        "To hear how you are.",
    ),
    Urgency.SAME_DAY: (
        FOLLOW_NEXT_DAY,
        "A danger was referred the same day: hear how it went.",
        "To hear how you are and what the team found.",
    ),
    Urgency.DAYS: (
        FOLLOW_SOON,
        "A danger was referred within days.",
        "To look again at what we found today.",
    ),
    Urgency.TWO_WEEKS: (
        FOLLOW_TWO_WEEKS,
        "A finding was referred within two weeks.",
        "To hear what the doctor found.",
    ),
}


class Due(NamedTuple):
    """One reason to come back: days from now, why, and why in plain words."""

    days: int
    reason: Reason
    plain: str


def follow_up(situation: Situation, chosen: Chosen | None) -> FollowUp:
    """The soonest of urgency, pressure, skin, change and routine; ``chosen`` None: no plan made."""
    reasons = [*_dangers(situation)]
    if not situation.emergency:
        reasons += [*_skin(situation), *_course(situation)]
        if chosen is not None:
            reasons += _changes(chosen)
    days = min(due.days for due in reasons)
    return _at(days, [due for due in reasons if due.days == days])


def _at(days: int, dues: list[Due]) -> FollowUp:
    text = "See or phone again tomorrow." if days == 1 else f"See again within {days} days."
    plain = " ".join(dict.fromkeys(due.plain for due in dues))
    return FollowUp(days, text, tuple(due.reason for due in dues), plain)


def leave_alone_follow_up(situation: Situation) -> FollowUp:
    """Routine only."""
    due = next(_course(situation))
    return _at(due.days, [due])


def _dangers(situation: Situation) -> Iterator[Due]:
    if situation.urgency in _BY_URGENCY:
        threshold, text, plain = _BY_URGENCY[situation.urgency]
        yield Due(int(threshold.value), Reason(text, (threshold.source,)), plain)


def _skin(situation: Situation) -> Iterator[Due]:
    if situation.facts.skin_clear is False:
        reason = Reason("Damaged skin is looked at within a week.", (DESIGN,), "skin")
        yield Due(int(FOLLOW_SKIN.value), reason, "To look at your skin again.")


def _changes(chosen: Chosen) -> Iterator[Due]:
    if chosen.convex or "belt" in chosen.supplies:
        presses = [k for k in chosen.supplies if "_convex_" in k or k == "belt"]
        if any(chosen.started(key) for key in presses):
            text = "Convexity or belt is new: pressure check at the first change, within 7 days."
            plain = "To check that nothing presses too hard on your skin."
            yield Due(int(PRESSURE_CHECK.value), Reason(text, (DESIGN,)), plain)
    refitted = any(need.key == "refit_opening" for need in chosen.needs)
    if chosen.best.cost.changes or refitted:
        text = "The system was changed: look whether it worked."
        plain = "To see how your new supplies work for you."
        yield Due(int(FOLLOW_CHANGE.value), Reason(text, (PRACTICE,)), plain)


def _course(situation: Situation) -> Iterator[Due]:
    """The next routine visit; a new ileostomy is phoned after 7 days for dehydration."""
    days = situation.facts.findings.stoma.days_since_surgery
    if days is None:
        text = "The time since surgery is not recorded: not later than the shortest routine gap."
        reason = Reason(text, (DESIGN,), "stoma.days_since_surgery")
        yield Due(int(FOLLOW_TWO_WEEKS.value), reason, "To check that all is well.")
        return
    points = list(ROUTINE_DAYS)
    if situation.facts.kind is StomaKind.ILEOSTOMY:
        points = sorted([*points, _ILEOSTOMY_CALL])
    due = next((point - days for point in points if point > days), None)
    wait = _YEAR - days % _YEAR if due is None else due
    text = f"Routine visit at day {days + wait} after surgery."
    reason = Reason(text, _routine_sources(due, days), "stoma.days_since_surgery")
    yield Due(wait, reason, "To check that all is well.")


def _routine_sources(due: int | None, days: int) -> tuple[str, ...]:
    """Yearly review and the first calls are published; the other points are common practice."""
    if due is None:
        return DESIGN, "chelsea", "eastkent"
    if days + due == ROUTINE_DAYS[0]:
        return DESIGN, "cambridge", "salford"
    return (DESIGN, "vogel2022") if days + due == _ILEOSTOMY_CALL else (DESIGN, PRACTICE)
