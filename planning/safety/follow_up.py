"""When to see the person again: the earliest of every reason to."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final, NamedTuple

from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import (
    FOLLOW_CHANGE,
    FOLLOW_NEXT_DAY,
    FOLLOW_SKIN,
    FOLLOW_SOON,
    FOLLOW_TWO_WEEKS,
    PRESSURE_CHECK,
    Threshold,
)
from planning.ranked_facts import RankedFacts
from planning.results.message import Words, to_patient
from planning.results.plan import FollowUp, Reason, Urgency
from planning.safety.routine import UNKNOWN, next_visit, words_of_days
from planning.supplies.catalogue import CONVEX
from planning.supplies.system_choice import SystemChoice


@dataclass(frozen=True, slots=True)
class IntervalRule:
    """A reason to come back within ``days``. ``why`` for the clinician, ``plain`` for the sheet.

    ``holds`` sees no choice (None) where an emergency made no plan.
    """

    key: str
    days: Threshold
    why: str
    plain: Words
    sources: tuple[str, ...]
    holds: Callable[[RankedFacts, SystemChoice | None], bool]
    at: str = ""
    in_emergency: bool = False


class Due(NamedTuple):
    """One reason to come back: days from now, why, and why in plain words."""

    days: int
    reason: Reason
    plain: Words


def _urgent(urgency: Urgency) -> Callable[[RankedFacts, SystemChoice | None], bool]:
    return lambda situation, _: situation.urgency is urgency


def _pressure_is_new(_: RankedFacts, chosen: SystemChoice | None) -> bool:
    presses = CONVEX | {"belt"}
    return chosen is not None and any(chosen.started(key) for key in chosen.supplies & presses)


def _changed(_: RankedFacts, chosen: SystemChoice | None) -> bool:
    if chosen is None:
        return False
    return bool(chosen.corrections | chosen.today)


def _skin_damaged(situation: RankedFacts, _: SystemChoice | None) -> bool:
    return situation.facts.skin_clear is False


def _rubbed(situation: RankedFacts, _: SystemChoice | None) -> bool:
    return bool(situation.facts.findings.measurement.rubbed)


def _unseen(situation: RankedFacts, _: SystemChoice | None) -> bool:
    """Skin or stoma not looked at: their state is not known."""
    facts = situation.facts
    seen = facts.findings.measurement
    looked = any(
        part is not None
        for part in (seen.length_mm, seen.radii_mm, seen.protrusion_mm, seen.colour)
    )
    return facts.skin_clear is None or not looked


#: The order for equal intervals.
RULES: Final = (
    IntervalRule(
        "after_emergency",
        FOLLOW_NEXT_DAY,
        "An emergency: ask how it went.",
        "To hear how you are.",
        (FOLLOW_NEXT_DAY.source,),
        _urgent(Urgency.EMERGENCY),
        in_emergency=True,
    ),
    IntervalRule(
        "after_same_day",
        FOLLOW_NEXT_DAY,
        "A danger was referred the same day: ask how it went.",
        "To hear how you are and what the team found.",
        (FOLLOW_NEXT_DAY.source,),
        _urgent(Urgency.SAME_DAY),
    ),
    IntervalRule(
        "after_telephone",
        FOLLOW_SOON,
        "A call was to be made the same day: hear what it answered and whether it helped.",
        "To hear how you are and what the call answered.",
        (FOLLOW_SOON.source,),
        _urgent(Urgency.TELEPHONE),
    ),
    IntervalRule(
        "after_days",
        FOLLOW_SOON,
        "A danger was to be seen within days: look at it again, and whether that happened.",
        "To look again at what we found today.",
        (FOLLOW_SOON.source,),
        _urgent(Urgency.DAYS),
    ),
    IntervalRule(
        "after_two_weeks",
        FOLLOW_TWO_WEEKS,
        "A finding was referred within two weeks: ask what came of it.",
        "To hear what the doctor found.",
        (FOLLOW_TWO_WEEKS.source,),
        _urgent(Urgency.TWO_WEEKS),
    ),
    IntervalRule(
        "damaged_skin",
        FOLLOW_SKIN,
        "Damaged skin is looked at within a week.",
        "To look at your skin again.",
        (DESIGN,),
        _skin_damaged,
        "skin",
    ),
    IntervalRule(
        "rubbed_stoma",
        FOLLOW_SKIN,
        "A cut or pale line on the stoma is looked at within a week.",
        "To look at your stoma again.",
        (DESIGN,),
        _rubbed,
        "measurement.rubbed",
    ),
    IntervalRule(
        "new_pressure",
        PRESSURE_CHECK,
        "Convexity or belt is new: pressure check at the first change, within 7 days.",
        "To check that nothing presses too hard on your skin.",
        (DESIGN,),
        _pressure_is_new,
    ),
    IntervalRule(
        "changed_system",
        FOLLOW_CHANGE,
        "The system was changed: look whether it worked.",
        "To see how your new supplies work for you.",
        (PRACTICE,),
        _changed,
    ),
    IntervalRule(
        "not_looked_at",
        FOLLOW_TWO_WEEKS,
        "Skin or stoma was not looked at: its state is not known.",
        "To look at your stoma and skin.",
        (DESIGN,),
        _unseen,
    ),
)


def follow_up(situation: RankedFacts, chosen: SystemChoice | None) -> FollowUp:
    """The soonest of urgency, pressure, skin, change and routine; ``chosen`` None: no plan made."""
    dues = [*_reasons(situation, chosen)]
    if not situation.emergency:
        dues.append(_routine(situation))
    days = min(due.days for due in dues)
    return _at(days, [due for due in dues if due.days == days])


def leave_alone_follow_up(situation: RankedFacts) -> FollowUp:
    """Routine only."""
    due = _routine(situation)
    return _at(due.days, [due])


def _at(days: int, dues: list[Due]) -> FollowUp:
    plain = to_patient(*dict.fromkeys(due.plain for due in dues))
    return FollowUp(days, words_of_days(days), tuple(due.reason for due in dues), plain)


def _reasons(situation: RankedFacts, chosen: SystemChoice | None) -> Iterator[Due]:
    for rule in RULES:
        if (rule.in_emergency or not situation.emergency) and rule.holds(situation, chosen):
            yield Due(int(rule.days.value), Reason(rule.why, rule.sources, rule.at), rule.plain)


def _routine(situation: RankedFacts) -> Due:
    """The next routine visit of this kind of stoma."""
    stoma = situation.facts.findings.stoma
    if stoma.days_since_surgery is None:
        reason = Reason(UNKNOWN.why, UNKNOWN.sources, "stoma.days_since_surgery")
        return Due(UNKNOWN.day, reason, UNKNOWN.plain)
    point = next_visit(stoma.kind, stoma.days_since_surgery)
    reason = Reason(point.why, point.sources, "stoma.days_since_surgery")
    return Due(point.day - stoma.days_since_surgery, reason, point.plain)
