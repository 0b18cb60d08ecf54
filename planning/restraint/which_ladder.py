"""Which ladder a leak calls for: by its likeliest cause, what is not the barrier's doing first."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from planning.inputs.findings import Ability, ChangedBy, LumenPosition, Symptom
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
            return _by_lumen(_OF_CAUSE[cause.key], situation)
    return EDGE if facts.leaking else None


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
