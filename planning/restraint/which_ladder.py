"""Which ladder a leak calls for: by its likeliest cause, what is not the barrier's doing first."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Final

from planning.facts.change_interval import log_day
from planning.facts.derive import Facts
from planning.facts.wear_summary import system_failed, usual_wear
from planning.inputs.findings import Ability, Accessory, ChangedBy, LumenPosition, Symptom
from planning.ranked_facts import RankedFacts
from planning.restraint.ladders import (
    BULGE,
    CREASE,
    EDGE,
    LOOSE,
    LOW,
    PLACING,
    POURS_LOW,
    PROLAPSE,
    SEPARATION,
    THICK,
)
from planning.restraint.rung import Ladder
from planning.results.plan import CauseOf

_OF_CAUSE: Final[Mapping[str, Ladder]] = {
    "low_stoma": LOW,
    "lumen_position": POURS_LOW,
    "crease": CREASE,
    "bulge": BULGE,
    "prolapse": PROLAPSE,
    "liquid_output": LOOSE,
}


def ladder_for(situation: RankedFacts) -> Ladder | None:
    """None where nothing is wrong with the seal, or nothing that a product would fix."""
    facts = situation.facts
    if not facts.troubled:
        return None
    for holds, ladder in _FIRST:
        if holds(situation):
            return ladder
    for cause in situation.causes.causes:
        if cause.of is CauseOf.LEAK and cause.score > 0 and cause.key in _OF_CAUSE:
            return _by_lumen(_by_crease(_OF_CAUSE[cause.key], situation, cause.score), situation)
    return EDGE if facts.leaking else None


def _by_crease(ladder: Ladder, situation: RankedFacts, score: float) -> Ladder:
    """Where height explains it no better, a leak at the hours of a crease alone is the crease's."""
    facts = situation.facts
    there = bool(facts.leak_hours) and not facts.leak_hours - facts.crease_hours
    level = any(c.key == "crease" and c.score >= score for c in situation.causes.causes)
    return CREASE if ladder is LOW and there and level else ladder


def _by_lumen(ladder: Ladder, situation: RankedFacts) -> Ladder:
    """A low stoma that pours to one side is built up there first."""
    m = situation.facts.findings.measurement
    aside = m.lumen is LumenPosition.OFF_CENTRE and m.lumen_hour is not None
    works_low = m.loop is not None and m.loop.working_hour is not None
    return POURS_LOW if ladder is LOW and (aside or works_low) else ladder


def melted_only(situation: RankedFacts) -> bool:
    """The barrier melted and let nothing under: it is changed sooner, not for another."""
    facts = situation.facts
    system = facts.findings.system
    if system is None or not system.erosion or system.leak is None or system.leak:
        return False
    return not (facts.wear is not None and facts.wear.leaks) and not facts.counted_leaks


def cannot_place(situation: RankedFacts) -> bool:
    """One hand, or eyes that cannot see the stoma, and no one who does it for them."""
    person = situation.facts.findings.person
    alone = person.changed_by in (None, ChangedBy.SELF, ChangedBy.WITH_HELP)
    lost = (Ability.NONE, Ability.ONE_HAND)
    return alone and (person.dexterity in lost or person.eyesight is Ability.NONE)


def has_a_cause_to_take_away(situation: RankedFacts) -> bool:
    """Found before any product is changed: powder left on whole skin, which keeps a barrier from
    holding, or barriers that leaked only after the day on which they are better changed."""
    return _powder_left_on(situation.facts) or _worn_past_its_day(situation.facts)


def _powder_left_on(facts: Facts) -> bool:
    return (
        facts.wears(Accessory.POWDER) is True
        and facts.findings.skin is not None
        and (not facts.weeping)
    )


def _worn_past_its_day(facts: Facts) -> bool:
    """On sound skin, by this person's own log, and on a day no earlier than is usual."""
    log = log_day(facts) if facts.skin_clear else None
    if log is None or log.day is None:
        return False
    failed = [one.days for one in facts.findings.wear or () if system_failed(one)]
    return log.day >= math.floor(usual_wear(facts.kind).value) and min(failed) > log.day


def cause_known(situation: RankedFacts) -> bool:
    """One cause is clearly the likeliest, or no cause is needed for what is done."""
    likely = [c for c in situation.causes.causes if c.score > 0]
    return bool(likely) and not situation.causes.cannot_tell_apart


def elsewhere(situation: RankedFacts) -> bool:
    """The leak has a reason that no product fixes: a load across the barrier where it leaks, or a
    system put on off centre."""
    system = situation.facts.findings.system
    if system is None or not situation.facts.leak_hours:
        return False
    load = bool(system.load and system.load & situation.facts.leak_hours)
    # Where hands or eyes cannot place it, the ladder begins with what makes placing easier.
    return load or (system.placed_towards is not None and not cannot_place(situation))


#: What goes before every other cause, in this order.
_FIRST: Final[tuple[tuple[Callable[[RankedFacts], object], Ladder | None], ...]] = (
    (lambda s: s.facts.separated, SEPARATION),
    (melted_only, None),
    (lambda s: s.facts.feels(Symptom.THICK_STICKING_STOOL), THICK),
    (cannot_place, PLACING),
    (lambda s: s.facts.prolapsed, PROLAPSE),
)
