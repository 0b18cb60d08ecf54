"""What is changed at a visit, stated plainly and found by trying everything.

The order (design values; one thing at a time is common practice):

1. Nothing is worn that may not be: a hazard in force, a known or suspected reaction, what hurt.
2. Harm is corrected, whatever the number of changes: what may not stay goes, raw skin and yeast
   are cared for, pressure comes off, an opening that rubs or bares sore skin is cut again. What the
   system did before it goes on doing.
3. What is left of two changes in all, and of one where no cause is known, goes first to an opening
   that is too wide, else to one step: the first of the ladder called that was neither worn nor
   tried, that this person may have and that undoes nothing of the above. Where it does not fit
   in, it waits: a later step is not taken in its place. Nothing is begun while the last change is
   on trial, nor where a load or a system put on off centre explains the leak, powder was left on
   whole skin, or barriers leaked only after their day. A step at which one would enter and that
   no one may take hides none before it, and a dome that may not be worn any more has taken no
   step. In the last weeks of life one enters at the gentlest, and no operation is held out. Of
   the ways to take the step: the fewest changes, the fewest items, the least effort and pressure.
4. Then comfort, as far as there is room.

What earlier stages found is taken as given: hazards, needs, causes, the verdict on the opening,
the ladder called. How they lead to a choice is written here apart from the planner.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import product
from typing import Final, NamedTuple

from planning.evidence.thresholds import OUTPUT_URGENT
from planning.inputs.findings import Accessory, Condition
from planning.needs import agreed, needs_of
from planning.ranked_facts import RankedFacts
from planning.restraint.which_ladder import elsewhere, has_a_cause_to_take_away, ladder_for
from planning.results.plan import Need
from planning.supplies.admissible import barred
from planning.supplies.catalogue import CONVEX, SUPPLIES, Slot
from planning.supplies.opening_size import Verdict, judge_opening
from planning.supplies.options import PLACE, effort_of, lifting_barriers, meets
from planning.supplies.search import reachable
from planning.supplies.worn import Worn, worn_now
from tests.planning.restraint.stated_ladders import ENTERED_AT, LADDERS, Stated, Tried

System = frozenset[str]

MOST: Final = 2
#: What harms if it is left undone: raw or weeping skin, yeast, a sore that is pressed on, an
#: adhesive that the skin reacts to, urine without a tap.
HARM: Final = {"absorb_moisture", "protect_skin", "treat_yeast", "relieve_pressure",
               "other_adhesive", "drain_urine"}  # fmt: skip
#: A dressing and a remover are no change.
FREE: Final = {"absorb_wound", "gentle_removal"}
#: Comfort, in the order in which it is met.
COMFORT: Final = ("drain_night", "no_cutting", "hold_volume")
#: Steps that lead to an operation.
OPERATIONS: Final = {"surgeon", "firm_deep"}
#: A system cannot be worn without these, so what goes is replaced by what does as much.
MUST_HOLD: Final = (Slot.PIECES, Slot.OPENING, Slot.POUCH)
_BUILD: Final = {Slot.BARRIER, Slot.MATERIAL, Slot.WEAR, Slot.PIECES}
_CARE: Final = {Slot.POWDER, Slot.PROTECTANT}


class Stand(NamedTuple):
    """What the statement comes to. ``step``: key of the step taken or asked for."""

    supplies: System
    corrected: frozenset[str]
    today: frozenset[str]
    step: str | None
    waits: bool
    later: tuple[str, ...]


@dataclass(frozen=True)
class _Person:
    """One person at one visit, with what may be worn."""

    now: RankedFacts
    worn: Worn
    barred: frozenset[str]
    proven: System
    effort: dict[str, int]
    lifting: System

    def met(self, need: Need, system: Iterable[str]) -> bool:
        return any(meets(SUPPLIES[key], need, self.lifting) for key in system)

    def systems(self, demands: tuple[Need, ...], extra: System) -> Iterator[System]:
        """Every admissible system that holds, besides what is worn, only what can serve."""
        serving = {
            s.key for s in SUPPLIES.values() for need in demands if self.met(need, (s.key,))
        } | extra
        columns = [self._column(slot, serving) for slot in Slot]
        for row in product(*columns):
            system = frozenset(key for key in row if key is not None)
            powder = system & {"powder", "antifungal_powder"}
            if not powder or "protectant" in system | self.barred:
                yield system

    def _column(self, slot: Slot, serving: set[str]) -> list[str | None]:
        able = [s.key for s in SUPPLIES.values() if s.slot is slot and s.key not in self.barred]
        there = self.worn.in_slot(slot)
        if slot is Slot.BARRIER:
            usual = serving | there | self.proven | {"flat_flexible"}
            return [key for key in able if key in usual] or [*able]
        if slot in _CARE and (serving | self.worn.keys) & {"powder", "antifungal_powder"}:
            return [*able, None]
        useful = [key for key in able if key in serving]
        kept = [key for key in able if key in there]
        if not useful:
            return [*kept] or [None]
        return [*dict.fromkeys((*useful, *kept)), None]

    def cost(self, system: System) -> tuple[int, int, int, int]:
        """Things changed, items, effort and pressure, place in the table."""
        changed = 0
        for slot in Slot:
            there, chosen = self.worn.in_slot(slot), _in(slot, system)
            if chosen:
                kept = chosen <= there or (not there and chosen <= self.proven)
                changed += not kept
            else:
                changed += bool(there)
        effort = sum(self.effort[key] for key in system)
        return changed, len(system), effort, sum(PLACE[key] for key in system)

    def best(
        self,
        demands: tuple[Need, ...],
        holds: Callable[[System], bool] = lambda _: True,
        extra: System = frozenset(),
        rather: Callable[[System], int] = lambda _: 0,
    ) -> System | None:
        """Of all systems for which it ``holds``: fewest demands unmet, then the least of the
        rest."""
        demands = agreed(reachable(demands, lifting_barriers(self.now), self.barred), self.now)
        able = [s for s in self.systems(demands, extra) if holds(s)]
        if not able:
            return None
        return min(
            able,
            key=lambda s: (sum(not self.met(n, s) for n in demands), rather(s), self.cost(s)),
        )

    def parts(self, system: System, *, opening: bool) -> frozenset[str]:
        """What counts as one change each."""
        new = {part for slot in Slot if (part := self._changed(slot, _in(slot, system)))}
        if opening:
            new.add("opening")
        if "pieces" in new:
            # Plate and pouch of another build are one.
            new = new - {"pieces", "pouch"} | {"barrier"}
        return frozenset(new - {"opening"} if "barrier" in new else new)

    def _changed(self, slot: Slot, chosen: System) -> str | None:
        """Under what a change in this place is counted; None where nothing changes."""
        there = self.worn.in_slot(slot)
        if slot in (Slot.WOUND, Slot.REMOVER) or (chosen and chosen <= there):
            return None
        if slot in (Slot.MATERIAL, Slot.WEAR):
            # No field says what is worn of these: the last plan does.
            trials = self.now.facts.history.trials
            on_record = trials[-1].supplies if trials else frozenset()
            return "barrier" if chosen and not chosen <= on_record else None
        if slot in (Slot.BARRIER, *MUST_HOLD):
            # What was not recorded is not known to change.
            return slot.value if there and chosen else None
        if not there and not chosen:
            return None
        return "skin_care" if slot in _CARE else slot.value


def _in(slot: Slot, system: System) -> System:
    return frozenset(key for key in system if SUPPLIES[key].slot is slot)


def stand(now: RankedFacts) -> Stand:
    """What is changed today, and what waits."""
    facts = now.facts
    worn = worn_now(facts)
    may_not = frozenset(barred(now, worn))
    helped = [t for t in facts.history.trials if t.helped]
    hurt = {key for t in facts.history.trials for key in t.hurt}
    who = _Person(
        now,
        worn,
        may_not,
        (helped[-1].supplies if helped else frozenset()) - hurt,
        effort_of(facts.findings.person),
        lifting_barriers(now),
    )
    opening = judge_opening(facts).verdict
    needs = needs_of(now)
    demands = tuple(n for n in needs if _comes_first(n, who, opening))
    first = who.best(demands)
    assert first is not None
    corrected = who.parts(first, opening=opening is Verdict.CORRECT)
    taken = _step(who, demands, first, corrected, opening)
    if not taken.waits:
        taken = _comfort(who, demands, taken, needs, opening)
    return taken._replace(later=tuple(k for k in taken.later if not _held(k, who, taken.supplies)))


def _comes_first(need: Need, who: _Person, opening: Verdict) -> bool:
    """Harm; what counts for nothing; and what the worn system did already."""
    refits = need.key == "refit_opening"
    if refits and opening is Verdict.CORRECT:
        return True
    if need.key in HARM | FREE or (not refits and who.met(need, who.worn.keys)):
        return True
    for slot in MUST_HOLD:
        there = who.worn.in_slot(slot)
        serves = any(need.key in s.provides for s in SUPPLIES.values() if s.slot is slot)
        if serves and there and there <= who.barred:
            return True
    return False


def _room(who: _Person, corrected: frozenset[str]) -> int:
    """How many things may be changed today besides."""
    left = max(0, MOST - len(corrected))
    return left if _cause_known(who.now) else min(left, 1)


def _cause_known(now: RankedFacts) -> bool:
    """A cause is likely, and no two are level."""
    return any(c.score > 0 for c in now.causes.causes) and not now.causes.cannot_tell_apart


def _on_trial(now: RankedFacts) -> bool:
    """Judged after 5 barriers or 14 days, whichever first, but after 3 barriers at least."""
    trials = now.facts.history.trials
    if not trials:
        return False
    last = trials[-1]
    answered = last.helped is True or bool(last.hurt) or last.partly
    if answered or last.barriers is None:
        return False
    if last.helped is False:
        return last.barriers < 3
    return last.barriers < 3 or (last.barriers < 5 and (last.days is None or last.days < 14))


def _step(
    who: _Person,
    demands: tuple[Need, ...],
    first: System,
    corrected: frozenset[str],
    opening: Verdict,
) -> Stand:
    """With the one step, where there is one to take."""
    called = ladder_for(who.now)
    only = Stand(first, corrected, frozenset(), None, waits=False, later=())
    if called is None:
        return only
    left = list(_left(called.key, who))
    waiting = tuple(step.key for step in left)
    if _on_trial(who.now):
        return only._replace(waits=True, later=waiting)
    if opening is Verdict.REFIT:
        return _refitted(who, demands, only._replace(later=waiting))
    if "opening" in corrected or elsewhere(who.now) or has_a_cause_to_take_away(who.now):
        return only._replace(later=waiting)
    return _first_possible(left, who, demands, only._replace(later=waiting), opening)


def _refitted(who: _Person, demands: tuple[Need, ...], only: Stand) -> Stand:
    """The opening first: the rest waits until it fits."""
    why = tuple(n for n in needs_of(who.now) if n.key == "refit_opening")
    refitted = who.best((*demands, *why))
    assert refitted is not None
    today = who.parts(refitted, opening=True) - only.corrected
    if len(today) > _room(who, only.corrected):
        return only
    return only._replace(supplies=refitted, today=today)


def _first_possible(
    left: list[Stated], who: _Person, demands: tuple[Need, ...], only: Stand, opening: Verdict
) -> Stand:
    tried = _tried(who)
    for place, step in enumerate(left):
        after = only.later[place + 1 :]
        if step.made is None:
            return only._replace(step=step.key, later=after)
        if step.made(only.supplies, tried):
            # A correction takes it already.
            return only._replace(later=after)
        system = _with(step, who, demands, only.supplies, tried)
        if system is None:
            continue
        today = who.parts(system, opening=opening is Verdict.CORRECT) - only.corrected
        if len(today) > _room(who, only.corrected):
            return only
        return only._replace(supplies=system, today=today, step=step.key, later=after)
    return only


def _with(
    step: Stated, who: _Person, demands: tuple[Need, ...], first: System, tried: Tried
) -> System | None:
    """The best system that takes ``step``; None where every one would undo what comes first."""
    still = tuple(n for n in demands if n.key not in step.instead_of)
    still = agreed(reachable(still, lifting_barriers(who.now), who.barred), who.now)
    kept = [need for need in still if who.met(need, first)]
    return who.best(
        still,
        lambda s: (
            step.made is not None and step.made(s, tried) and all(who.met(need, s) for need in kept)
        ),
        step.of,
        lambda s: step.rather(s, tried),
    )


def _tried(who: _Person) -> Tried:
    """What is behind this person: the system worn, where it is certain, and each that failed since
    a plan last helped."""
    barrier = who.worn.possible if len(who.worn.possible) == 1 else frozenset()
    systems = [who.worn.others | barrier]
    for trial in reversed(who.now.facts.history.trials):
        if trial.helped:
            break
        if trial.helped is False:
            systems.append(trial.supplies)
    return Tried(tuple(systems), who.now)


def _left(called: str, who: _Person) -> Iterator[Stated]:
    """Steps of this ladder that were not tried and that something admissible makes."""
    tried = _tried(who)
    last_weeks = who.now.facts.has(Condition.LAST_WEEKS_OF_LIFE) is True
    start = ENTERED_AT.get(called, lambda *_: 0)(who.now, who.barred)
    entry = LADDERS[called][start]
    if last_weeks or not _may_be_had(entry, who, tried):
        start = 0
    no_dome = who.barred >= CONVEX
    behind_them = [system - CONVEX if no_dome else system for system in tried.systems]
    for step in LADDERS[called][start:]:
        behind = any(step.behind(system) for system in behind_them)
        # What loose output needs is no operation.
        operation = last_weeks and called != "loose_output" and step.key in OPERATIONS
        if not behind and not operation and _may_be_made(step, who, tried):
            yield step


def _may_be_had(step: Stated, who: _Person, tried: Tried) -> bool:
    """Something admissible makes it; and it is not one for want of another."""
    made = step.made
    able = made is None or who.best((), lambda s: made(s, tried), step.of) is not None
    return able and step.unless <= who.barred


def _may_be_made(step: Stated, who: _Person, tried: Tried) -> bool:
    worn_already = step.made is not None and step.made(tried.systems[0], tried)
    return not worn_already and _may_be_had(step, who, tried)


def _held(key: str, who: _Person, system: System) -> bool:
    called = ladder_for(who.now)
    return called is not None and any(
        step.behind(system) for step in LADDERS[called.key] if step.key == key
    )


def _comfort(
    who: _Person,
    demands: tuple[Need, ...],
    taken: Stand,
    needs: tuple[Need, ...],
    opening: Verdict,
) -> Stand:
    """One thing after another that makes it easier, around what was chosen."""
    output = who.now.facts.findings.output.volume_ml_24h or 0
    matters = {
        "drain_night": who.now.facts.wears(Accessory.NIGHT_BAG) is False,
        "no_cutting": True,
        "hold_volume": output >= OUTPUT_URGENT.value,
    }
    for key in COMFORT:
        need = next((n for n in needs if n.key == key), None)
        if need is None or not matters[key] or need in demands or who.met(need, taken.supplies):
            continue
        slots = {s.slot for s in SUPPLIES.values() if key in s.provides}
        rest = frozenset(k for k in taken.supplies if SUPPLIES[k].slot not in slots)
        ways = [
            rest | {s.key}
            for s in SUPPLIES.values()
            if who.met(need, (s.key,)) and s.key not in who.barred
        ]
        if not ways:
            continue
        easier = min(ways, key=who.cost)
        cut = opening is Verdict.CORRECT or (opening is Verdict.REFIT and bool(taken.today))
        today = who.parts(easier, opening=cut) - taken.corrected
        if today == taken.today or len(today) <= _room(who, taken.corrected):
            taken = taken._replace(supplies=easier, today=today)
    return taken
