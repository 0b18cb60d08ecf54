"""What is changed today and what waits: corrections first, then one step, never more than two.

Corrections are done whatever their number and use up the limit first. What is left of two goes to
one step of the ladder for this leak, and only then to comfort. The steps above it wait, in order.
(Limit and order: design values; one thing at a time is common practice.)
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

from planning.evidence.thresholds import (
    JUDGE_BARRIERS,
    JUDGE_DAYS,
    JUDGE_LEAST,
    MOST_CHANGES,
    OUTPUT_URGENT,
)
from planning.inputs.findings import Accessory, Condition
from planning.needs import ESSENTIAL, agreed
from planning.ranked_facts import RankedFacts
from planning.restraint.rung import Ladder, Rung
from planning.restraint.which_ladder import (
    cause_known,
    elsewhere,
    has_a_cause_to_take_away,
    ladder_for,
)
from planning.results.plan import Need, Reason
from planning.supplies.catalogue import CONVEX, SUPPLIES, Slot
from planning.supplies.changed_parts import OPENING, changed_parts
from planning.supplies.opening_size import OpeningVerdict, Verdict, judge_opening
from planning.supplies.options import Shelf, meets, providers_of, shelf_of
from planning.supplies.search import Combination, reachable, search_on
from planning.supplies.system_choice import is_new_system
from planning.supplies.worn import Worn, worn_before

#: Needs of harm: what they ask is done whatever else is changed.
CORRECTING: Final = frozenset(
    {"absorb_moisture", "protect_skin", "treat_yeast", "other_adhesive", "relieve_pressure",
     "drain_urine"}
)  # fmt: skip
#: Needs whose answer does not count as a change of what is worn.
FREE: Final = frozenset({"absorb_wound", "gentle_removal"})
#: Places in which every system holds something.
_FILLED: Final = frozenset({Slot.PIECES, Slot.OPENING, Slot.POUCH})
#: Those of them that hold what meets a need.
_FILLED_FOR: Final = {
    key: frozenset(s.slot for s in SUPPLIES.values() if key in s.provides) & _FILLED
    for key in {key for s in SUPPLIES.values() for key in s.provides}
}
#: Met where nothing else uses up the limit, in this order.
COMFORT: Final = ("drain_night", "no_cutting", "hold_volume")


@dataclass(frozen=True)
class Staged:
    """``corrections`` and ``today``: parts changed. ``rung``: the step taken, or to be asked for,
    None: none. ``later``: steps that wait, in order. ``waits``: a change is still on trial."""

    needs: tuple[Need, ...]
    best: Combination
    runner_up: Combination | None
    opening: OpeningVerdict
    corrections: frozenset[str]
    today: frozenset[str]
    ladder: Ladder | None = None
    rung: Rung | None = None
    later: tuple[Rung, ...] = ()
    waits: bool = False


@dataclass(frozen=True)
class _Search:
    """One search after another over growing needs."""

    situation: RankedFacts
    worn: Worn
    barred: Mapping[str, tuple[Reason, ...]]
    opening: OpeningVerdict

    @cached_property
    def shelf(self) -> Shelf:
        return shelf_of(self.situation, self.worn, frozenset(self.barred))

    def over(
        self, needs: tuple[Need, ...]
    ) -> tuple[tuple[Need, ...], Combination, Combination | None]:
        asked = agreed(reachable(needs, self.shelf.lifting, self.barred), self.situation)
        must = ESSENTIAL | {need.key for need in needs}
        return (asked, *search_on(self.shelf, asked, must))

    def can_meet(self, needs: tuple[Need, ...]) -> bool:
        """Each by something that may be worn."""
        return all(
            any(
                meets(supply, need, self.shelf.lifting)
                for supply in providers_of(need)
                if supply.key not in self.barred
            )
            for need in needs
        )

    def can_take(self, rung: Rung, worn: frozenset[str]) -> bool:
        """Something that may be worn makes this step, and nothing beside the barrier does as much
        already."""
        ways = rung.ways(self.situation)
        beside = [key for key in worn if SUPPLIES[key].slot is not Slot.BARRIER]
        does = any(all(self._met(need, beside) for need in asked) for asked in ways)
        return not does and any(map(self.can_meet, ways))

    def _met(self, need: Need, worn: Iterable[str]) -> bool:
        return any(meets(SUPPLIES[key], need, self.shelf.lifting) for key in worn)

    @cached_property
    def most(self) -> int:
        """Changes for today besides corrections: one where no cause is known."""
        return int(MOST_CHANGES.value) if cause_known(self.situation) else 1

    def room(self, corrections: frozenset[str]) -> int:
        """How many of them the corrections leave."""
        return max(0, min(self.most, int(MOST_CHANGES.value) - len(corrections)))

    def parts(self, found: Combination, *, opening: bool) -> frozenset[str]:
        supplies = frozenset(found.keys)
        build = is_new_system(supplies, self.worn, self.situation.facts)
        return changed_parts(self.worn, supplies, build=build, opening=opening)


def staged(
    situation: RankedFacts,
    wanted: tuple[Need, ...],
    worn: Worn,
    barred: Mapping[str, tuple[Reason, ...]],
) -> Staged:
    """Today's system out of everything ``wanted``."""
    opening = judge_opening(situation.facts)
    seek = _Search(situation, worn, barred, opening)
    held = tuple(n for n in wanted if _now(n, seek) or _replaces(n, worn, barred))
    if set(barred) >= CONVEX and situation.facts.troubled:
        # No dome may be worn: the plan must say so and whom to ask.
        held += tuple(n for n in wanted if n.key == "lift_rim" and n not in held)
    needs, best, other = seek.over(held)
    corrected = seek.parts(best, opening=opening.verdict is Verdict.CORRECT)
    found = Staged(needs, best, other, opening, corrected, frozenset())
    found = _comfort(_step(found, seek, held, wanted), seek, wanted)
    chosen = frozenset(found.best.keys)
    return replace(found, later=tuple(rung for rung in found.later if not rung.has(chosen)))


def _now(need: Need, seek: _Search) -> bool:
    """A need of harm or of none to count, or one that the worn system meets and must go on
    meeting."""
    if need.key == "refit_opening":
        return seek.opening.verdict is Verdict.CORRECT
    if need.key in CORRECTING | FREE:
        return True
    return any(meets(SUPPLIES[key], need, seek.shelf.lifting) for key in seek.worn.keys)


def _replaces(need: Need, worn: Worn, barred: Mapping[str, tuple[Reason, ...]]) -> bool:
    """What met it may not be worn any more, in a place that must be filled."""
    places = _FILLED_FOR.get(need.key, frozenset())
    return any(there and there <= set(barred) for there in map(worn.in_slot, places))


def _step(found: Staged, seek: _Search, held: tuple[Need, ...], wanted: tuple[Need, ...]) -> Staged:
    """With the first step of the ladder that the limit leaves room for; the others wait."""
    ladder = ladder_for(seek.situation)
    if ladder is None:
        return found
    systems = worn_before(seek.situation.facts, seek.worn)
    left = tuple(
        rung
        for rung in ladder.left(seek.situation, systems, seek.barred)
        if rung.needs is None or seek.can_take(rung, systems[0])
    )
    if seek.situation.facts.has(Condition.LAST_WEEKS_OF_LIFE):
        # Comfort leads: no operation is held out.
        left = tuple(rung for rung in left if not rung.operation)
    found = replace(found, ladder=ladder, later=left)
    refits = found.opening.verdict is Verdict.REFIT
    if on_trial(seek.situation):
        return replace(found, waits=True)
    if refits:
        return _refitted(found, seek, held)
    first = elsewhere(seek.situation) or has_a_cause_to_take_away(seek.situation)
    if OPENING in found.corrections or first or not left:
        return found
    return _taken(found, seek, held, left, wanted)


def _refitted(found: Staged, seek: _Search, held: tuple[Need, ...]) -> Staged:
    """The opening goes first; only when it fits is a leak judged further."""
    why = found.opening.why
    if why is None:
        return found
    need = Need("refit_opening", "An opening of the size of the stoma", (why,))
    needs, best, other = seek.over((*held, need))
    today = seek.parts(best, opening=True) - found.corrections
    if len(today) > seek.room(found.corrections):
        return found
    return replace(found, needs=needs, best=best, runner_up=other, today=today)


def _taken(
    found: Staged,
    seek: _Search,
    held: tuple[Need, ...],
    left: tuple[Rung, ...],
    wanted: tuple[Need, ...],
) -> Staged:
    """The first step that can be met: one that asks for more than its supply has is passed over."""
    for place, rung in enumerate(left):
        after = left[place + 1 :]
        if rung.needs is None:
            return replace(found, rung=rung, later=after)
        asked = tuple(_with_reasons(need, wanted) for need in _way(rung, seek))
        keys = {need.key for need in asked}
        needs, best, other = seek.over((*(n for n in held if n.key not in keys), *asked))
        parts = seek.parts(best, opening=found.opening.verdict is Verdict.CORRECT)
        today = parts - found.corrections
        if len(today) > seek.room(found.corrections):
            return found
        if set(best.keys) == set(found.best.keys):
            if rung.has(frozenset(best.keys)):
                # A correction takes this step already: no other one today.
                return replace(found, later=after)
        else:
            return replace(
                found, needs=needs, best=best, runner_up=other, today=today, rung=rung, later=after
            )
    return found


def _way(rung: Rung, seek: _Search) -> tuple[Need, ...]:
    """The first way to take this step that can be met."""
    ways = rung.ways(seek.situation)
    return next(filter(seek.can_meet, ways), ways[0])


def _with_reasons(need: Need, wanted: tuple[Need, ...]) -> Need:
    """A step's need with what was found for it."""
    found = next((n for n in wanted if n.key == need.key), None)
    if found is None:
        return need
    return replace(need, because=(*found.because, *need.because), hours=need.hours or found.hours)


def _comfort(found: Staged, seek: _Search, wanted: tuple[Need, ...]) -> Staged:
    """What makes it easier, one need after another while there is room and nothing is on trial."""
    for key in COMFORT:
        need = next((n for n in wanted if n.key == key), None)
        if need is None or need in found.needs or not _matters(key, seek.situation):
            continue
        room = not found.waits
        easier = _eased(found, seek, need) if room else None
        if easier is None and key == "no_cutting":
            # Someone who should not cut is never asked to: another person cuts until there is room.
            easier = _eased(found, replace(seek, barred={**seek.barred, "pre_cut": ()}), need)
        found = easier or found
    return found


def _eased(found: Staged, seek: _Search, need: Need) -> Staged | None:
    """With ``need`` too; None where the limit leaves no room for what it changes."""
    needs, best, other = seek.over((*found.needs, need))
    refit = found.opening.changes and OPENING in found.corrections | found.today
    parts = seek.parts(best, opening=refit)
    more = parts - found.corrections - found.today
    today = found.today | more
    if more and len(today) > seek.room(found.corrections):
        return None
    return replace(found, needs=needs, best=best, runner_up=other, today=today)


def _matters(key: str, situation: RankedFacts) -> bool:
    facts = situation.facts
    if key == "hold_volume":
        return (facts.findings.output.volume_ml_24h or 0.0) >= OUTPUT_URGENT.value
    return key != "drain_night" or facts.wears(Accessory.NIGHT_BAG) is False


def on_trial(situation: RankedFacts) -> bool:
    """What was changed last is worn too short to be judged: fewer than three barriers, or fewer
    than five within 14 days. A trial whose length is not recorded is not waited for."""
    newest = situation.facts.history.last_plan
    if newest is None or newest.hurt or newest.helped or newest.partly:
        return False
    if newest.barriers is None:
        return False
    if newest.helped is False:
        # Judged already: what was said of fewer barriers than can be judged does not count.
        return newest.barriers < JUDGE_LEAST.value
    short = newest.days is None or newest.days < JUDGE_DAYS.value
    return newest.barriers < JUDGE_LEAST.value or (newest.barriers < JUDGE_BARRIERS.value and short)
