"""When to see the person again: the earliest of every reason to."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Final, NamedTuple

from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import (
    FOLLOW_CHANGE,
    FOLLOW_NEXT_DAY,
    FOLLOW_RESTLESS,
    FOLLOW_SKIN,
    FOLLOW_SOON,
    FOLLOW_TWO_WEEKS,
    FOLLOW_YEAST,
    PREGNANCY_EARLY,
    PREGNANCY_LATE,
    PRESSURE_CHECK,
    Threshold,
)
from planning.facts.derive import Facts
from planning.inputs.findings import Findings
from planning.ranked_facts import RankedFacts
from planning.recommendations.situations.dementia import pulled_or_restless
from planning.recommendations.situations.pregnancy import early, late
from planning.results.message import Words, to_patient
from planning.results.plan import FollowUp, Reason, Urgency
from planning.safety.routine import AFTER_EMERGENCY, UNKNOWN, next_visit, words_of_days
from planning.supplies.catalogue import CONVEX
from planning.supplies.system_choice import SystemChoice


@dataclass(frozen=True, slots=True)
class IntervalRule:
    """A reason to come back within ``days``. ``why`` for the clinician, ``plain`` for the sheet.

    ``holds`` sees no choice (None) where an emergency made no plan. ``when_kept``: it also counts
    where the system fits and all is kept.
    """

    key: str
    days: Threshold
    why: str
    plain: Words
    sources: tuple[str, ...]
    holds: Callable[[RankedFacts, SystemChoice | None], bool]
    at: str = ""
    in_emergency: bool = False
    when_kept: bool = False


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
    return not _looked_over(situation.facts.findings)


def _looked_over(findings: Findings) -> bool:
    """Skin and stoma were both looked at."""
    seen = findings.measurement
    parts = (seen.length_mm, seen.radii_mm, seen.protrusion_mm, seen.colour)
    return findings.skin is not None and any(part is not None for part in parts)


def _still_leaks(situation: RankedFacts, chosen: SystemChoice | None) -> bool:
    """More than an occasional leak, and no supply is changed for it."""
    return situation.facts.troubled and not _changed(situation, chosen)


def _restless(situation: RankedFacts, _: SystemChoice | None) -> bool:
    return pulled_or_restless(situation.facts)


def _open_wound(situation: RankedFacts, _: SystemChoice | None) -> bool:
    return bool(situation.facts.findings.wounds)


def _weeping_reaction(situation: RankedFacts, _: SystemChoice | None) -> bool:
    """Raw and wet inside the outline of a suspected product."""
    wet = any(s.finding.moist and s.finding.product_outline for s in situation.facts.damaged)
    return situation.suspected is not None and wet


def _yeast(situation: RankedFacts, _: SystemChoice | None) -> bool:
    return situation.likely("yeast")


def _pregnant_early(situation: RankedFacts, _: SystemChoice | None) -> bool:
    return early(situation.facts)


def _pregnant_late(situation: RankedFacts, _: SystemChoice | None) -> bool:
    return late(situation.facts)


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
        "A call was to be made the same day: ask what the answer was and whether it helped.",
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
        "restless",
        FOLLOW_RESTLESS,
        "Dementia, and pulled off or restless: look again within 3 days.",
        "To see how you are.",
        (DESIGN,),
        _restless,
        "output.present",
        when_kept=True,
    ),
    IntervalRule(
        "open_wound",
        FOLLOW_SOON,
        "An open wound near the stoma: look whether both seals hold, and what the team said.",
        "To look at the wound and your pouch.",
        (PRACTICE,),
        _open_wound,
        "wounds",
        when_kept=True,
    ),
    IntervalRule(
        "weeping_reaction",
        FOLLOW_SOON,
        "Raw and wet inside a product's outline: look, or call after the next change.",
        "To look at your skin again.",
        (DESIGN,),
        _weeping_reaction,
        "skin",
    ),
    IntervalRule(
        "yeast",
        FOLLOW_YEAST,
        "Yeast: looked at again after 7 days.",
        "To look at your skin again.",
        (PRACTICE,),
        _yeast,
        "skin",
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
        "pregnant_late",
        PREGNANCY_LATE,
        "Pregnant, from week 28 on or in a week not recorded: measured every 2 weeks.",
        "To measure your stoma, which grows with the pregnancy.",
        (DESIGN,),
        _pregnant_late,
        "person.pregnant_weeks",
        when_kept=True,
    ),
    IntervalRule(
        "pregnant_early",
        PREGNANCY_EARLY,
        "Pregnant, before week 28: measured every 4 weeks.",
        "To measure your stoma, which grows with the pregnancy.",
        (DESIGN,),
        _pregnant_early,
        "person.pregnant_weeks",
        when_kept=True,
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
        "still_leaks",
        FOLLOW_TWO_WEEKS,
        "It leaks, and no supply was changed: look whether what was advised helps.",
        "To see whether it still leaks.",
        (DESIGN,),
        _still_leaks,
        "system.leak",
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
    found = _at(days, [due for due in dues if due.days == days])
    return replace(found, text=AFTER_EMERGENCY) if situation.emergency else found


def leave_alone_follow_up(situation: RankedFacts) -> FollowUp:
    """Routine, or sooner where the person's own state asks for it."""
    dues = [*_reasons(situation, None, kept=True), _routine(situation)]
    days = min(due.days for due in dues)
    return _at(days, [due for due in dues if due.days == days])


def _at(days: int, dues: list[Due]) -> FollowUp:
    plain = to_patient(*dict.fromkeys(due.plain for due in dues))
    return FollowUp(days, words_of_days(days), tuple(due.reason for due in dues), plain)


def _reasons(
    situation: RankedFacts, chosen: SystemChoice | None, *, kept: bool = False
) -> Iterator[Due]:
    for rule in RULES:
        if kept and not rule.when_kept:
            continue
        if (rule.in_emergency or not situation.emergency) and rule.holds(situation, chosen):
            yield Due(int(rule.days.value), Reason(rule.why, rule.sources, rule.at), rule.plain)


def _routine(situation: RankedFacts) -> Due:
    """The next routine visit of this kind of stoma."""
    stoma = situation.facts.findings.stoma
    if stoma.days_since_surgery is None:
        reason = Reason(UNKNOWN.why, UNKNOWN.sources, "stoma.days_since_surgery")
        return Due(UNKNOWN.day, reason, UNKNOWN.plain)
    days, point = next_visit(stoma.kind, stoma.days_since_surgery, _last_look(situation.facts))
    return Due(days, Reason(point.why, point.sources, "stoma.days_since_surgery"), point.plain)


def _last_look(facts: Facts) -> int | None:
    """Day after surgery on which skin and stoma were last looked at, today's visit included."""
    looks = (
        visit.stoma.days_since_surgery
        for visit in (*facts.history.previous, facts.findings)
        if _looked_over(visit)
    )
    return max((day for day in looks if day is not None), default=None)
