"""The chosen system made again round what the clinician fixed in it.

A choice takes the place of one thing and leaves the rest as it was proposed. What a danger, a
sensitivity or a trial forbids is refused with its reason, as it is to the rules themselves; what
follows from the choice (sizes, steps, amounts, when to come back) is worked out from it.
"""

from __future__ import annotations

from dataclasses import replace
from functools import reduce
from typing import Final

from planning.evidence.thresholds import (
    CHANGE_DAY_LAST,
    EXTENDED_FROM,
    GAP_LEAST,
    GAP_MOST,
    WEAR_SHORT,
)
from planning.facts.change_interval import limits
from planning.facts.derive import Facts
from planning.inputs.findings import Oedema
from planning.inputs.fixed import Fixed, FixedKind, Refused
from planning.instructions.dimension import dimensions
from planning.restraint.next_steps import later_with
from planning.results.plan import Need
from planning.safety.gate import RULES, broken_rules
from planning.supplies.catalogue import SUPPLIES, Slot
from planning.supplies.changed_parts import BARRIER, OPENING, POUCH, changed_parts
from planning.supplies.opening_size import Verdict
from planning.supplies.options import PLACE, lifting_barriers, meets
from planning.supplies.search import Combination
from planning.supplies.system_choice import SystemChoice, is_new_system, opening_kept

#: Places in which every system holds something.
FILLED: Final = frozenset({Slot.BARRIER, Slot.PIECES, Slot.OPENING, Slot.POUCH})
#: Key of the advice that says when to change.
WEAR: Final = "wear_interval"
_OPENING_KEY: Final = "opening"
_GAP_ROUNDING: Final = 1e-6


def key_made(fixed: Fixed) -> str:
    """The key under which the plan made again recommends what was fixed."""
    if fixed.kind is FixedKind.DAY:
        return WEAR
    if fixed.kind is FixedKind.GAP:
        return _OPENING_KEY
    if fixed.kind is FixedKind.NONE:
        return fixed.key
    return _OPENING_KEY if SUPPLIES[fixed.supply].slot is Slot.OPENING else fixed.supply


def with_fixed(chosen: SystemChoice, fixed: tuple[Fixed, ...]) -> SystemChoice:
    """``chosen`` with every choice of ``fixed``; raises ``Refused`` for the first that may not be
    made."""
    proposed = frozenset(chosen.best.keys)
    supplies, gap, day = proposed, None, None
    for one in fixed:
        if one.kind is FixedKind.DAY:
            day = _day(one, chosen)
        elif one.kind is FixedKind.GAP:
            gap = _gap(one, chosen)
        else:
            supplies = _swapped(one, supplies, chosen)
    for one in fixed:
        _passes(one, supplies, chosen)
    if day is not None and day < EXTENDED_FROM.value and "extended_wear" in supplies:
        one = next(f for f in fixed if f.kind is FixedKind.DAY)
        raise Refused(one, _TOO_EARLY)
    if gap is not None and not supplies & {"cut_to_fit", "mouldable"}:
        one = next(f for f in fixed if f.kind is FixedKind.GAP)
        raise Refused(one, "A ready-cut opening has the size it comes with.")
    named = frozenset(key_made(f) for f in fixed if f.kind in (FixedKind.SUPPLY, FixedKind.GAP))
    named |= frozenset(f.supply for f in fixed if f.supply)
    return _made(chosen, supplies, named, gap, day)


_TOO_EARLY: Final = (
    f"An extended-wear barrier grips harder: it is never peeled off before day "
    f"{EXTENDED_FROM.value:g}."
)


def _made(
    chosen: SystemChoice,
    supplies: frozenset[str],
    named: frozenset[str],
    gap: float | None,
    day: float | None,
) -> SystemChoice:
    facts, proposed = chosen.situation.facts, frozenset(chosen.best.keys)
    corrections, today = chosen.corrections, chosen.today
    if supplies != proposed or gap is not None:
        corrections, today = _parts(chosen, supplies, sized=gap is not None)
    verdict = opening_kept(chosen.opening, chosen.worn, supplies)
    return replace(
        chosen,
        best=_combination(chosen, supplies),
        runner_up=chosen.runner_up if supplies == proposed else None,
        sizes=dimensions(facts, chosen.needs, supplies, verdict, gap),
        corrections=corrections,
        today=today,
        later=later_with(chosen, supplies),
        fixed=named,
        day=day,
    )


def _combination(chosen: SystemChoice, supplies: frozenset[str]) -> Combination:
    lifting = lifting_barriers(chosen.situation)

    def met(need: Need) -> bool:
        return any(meets(SUPPLIES[key], need, lifting) for key in supplies)

    bits = reduce(lambda found, i: found | met(chosen.needs[i]) << i, range(len(chosen.needs)), 0)
    return replace(chosen.best, keys=tuple(key for key in PLACE if key in supplies), met=bits)


def _parts(
    chosen: SystemChoice, supplies: frozenset[str], *, sized: bool
) -> tuple[frozenset[str], frozenset[str]]:
    """What is corrected and what else is changed, counted as the rules count it. ``sized``: the
    opening in use is known, and another size of it was chosen."""
    before, opening = chosen.corrections | chosen.today, chosen.opening
    sized = sized and opening.verdict is not Verdict.UNKNOWN
    refits = sized or (opening.changes and bool(before & {OPENING, BARRIER}))
    build = is_new_system(supplies, chosen.worn, chosen.situation.facts)
    parts = changed_parts(chosen.worn, supplies, build=build, opening=refits)
    corrections = chosen.corrections & parts
    if (chosen.corrections - parts) & {OPENING, POUCH} and BARRIER in parts:
        # Counted with the barrier, which changes too.
        corrections |= {BARRIER}
    if opening.verdict is Verdict.CORRECT and refits:
        corrections |= parts & {OPENING}
    return corrections, parts - corrections


# --- what may be chosen -------------------------------------------------------------------------
def _swapped(one: Fixed, supplies: frozenset[str], chosen: SystemChoice) -> frozenset[str]:
    """``supplies`` with this choice in the place of what was proposed."""
    old = _replaced(one, chosen)
    if one.kind is FixedKind.NONE:
        if not old or SUPPLIES[next(iter(old))].slot in FILLED:
            raise Refused(one, "Every system has one of these.")
        return supplies - old
    new = SUPPLIES.get(one.supply)
    if new is None:
        raise Refused(one, "This is not a supply of the list.")
    if not old and one.key != one.supply:
        raise Refused(one, "The plan no longer proposes what this was chosen for.")
    left = supplies - old
    if any(SUPPLIES[key].slot is new.slot for key in left):
        raise Refused(one, f"The plan has one in this place already, besides {new.name}.")
    slots = {SUPPLIES[key].slot for key in old}
    if slots & FILLED and new.slot not in slots:
        raise Refused(one, f"{_upper(new.name)} does not take its place.")
    return left | {new.key}


def _replaced(one: Fixed, chosen: SystemChoice) -> frozenset[str]:
    """The supply that was proposed under this key; none where it is to be left off."""
    proposed = frozenset(chosen.best.keys)
    if one.key == _OPENING_KEY:
        return frozenset(key for key in proposed if SUPPLIES[key].slot is Slot.OPENING)
    return proposed & {one.key}


def _passes(one: Fixed, supplies: frozenset[str], chosen: SystemChoice) -> None:
    """Raises ``Refused`` where a danger, a sensitivity, a trial or a never rule forbids it."""
    if one.supply and (reasons := chosen.barred.get(one.supply)):
        raise Refused(one, " ".join(reason.text for reason in reasons))
    if one.supply and (broken := broken_rules(chosen.situation, supplies)):
        said = {rule.key: rule.text for rule in RULES}
        raise Refused(one, " ".join(said[key] for key in broken))
    powders = {"powder", "antifungal_powder"} & supplies
    if one.key == "protectant" and one.kind is FixedKind.NONE and powders:
        raise Refused(one, "Powder is sealed by film, or it comes off with the barrier.")


def _gap(one: Fixed, chosen: SystemChoice) -> float:
    facts, gap = chosen.situation.facts, one.amount or 0.0
    least, most = gaps_allowed(facts)
    if not least - _GAP_ROUNDING <= gap <= most + _GAP_ROUNDING:
        raise Refused(
            one,
            "The stoma is swollen: it needs the widest usual gap."
            if least == most
            else f"An opening leaves {least:.1f} to {most:.1f} mm free on every side.",
        )
    return gap


def gaps_allowed(facts: Facts) -> tuple[float, float]:
    """The least and the widest gap (mm a side) that may be chosen."""
    swollen = facts.findings.measurement.oedema is Oedema.MARKED
    return (GAP_MOST.value if swollen else GAP_LEAST.value), GAP_MOST.value


def _day(one: Fixed, chosen: SystemChoice) -> float:
    day, (first, last, why) = one.amount or 0.0, days_allowed(chosen)
    if day != int(day):
        raise Refused(one, "The change day is a whole number of days.")
    if day > last:
        raise Refused(one, why)
    if day < first:
        raise Refused(one, _TOO_EARLY if first == EXTENDED_FROM.value else "At least one day.")
    if {"one_piece", "closed"} <= chosen.supplies:
        raise Refused(one, "A closed one-piece pouch is changed whenever it is full.")
    return day


def days_allowed(chosen: SystemChoice) -> tuple[int, int, str]:
    """The first and the last day that may be set, and why none after it."""
    extended = "extended_wear" in chosen.supplies
    first = EXTENDED_FROM.value if extended else WEAR_SHORT.value
    found = limits(chosen.situation.facts)
    days, why = min(
        [(days, reason.text) for days, reason in found]
        + [(CHANGE_DAY_LAST.value, "No barrier is left on for longer.")]
    )
    return int(first), int(days), f"{why} At most {_days(days)}."


def _days(days: float) -> str:
    return "1 day" if days == 1 else f"{days:g} days"


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]
