"""What may be chosen in the place of each thing a plan proposes: tried, not listed.

Every alternative is the plan made again with it; offered is only what the gate lets pass and what
leaves the plan in agreement with itself.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from planning.evidence.thresholds import GAP_LEAST, GAP_MOST, GAP_TARGET
from planning.fixed_choice import (
    FILLED,
    days_allowed,
    gaps_allowed,
    key_made,
)
from planning.inputs.age import AgeGroup
from planning.inputs.findings import Findings, History
from planning.inputs.fixed import Fixed, FixedKind, Refused
from planning.instructions.dimension import opening_wanted
from planning.pipeline import choose, plan_of, plan_with, ranked_facts_of
from planning.results.plan import Change, ItemKind, Plan, Recommendation
from planning.supplies.catalogue import SUPPLIES, Slot
from planning.supplies.options import providers_of
from planning.supplies.system_choice import SystemChoice

#: Gaps round the stoma to choose from, mm a side.
GAPS: Final = (GAP_LEAST.value, GAP_TARGET.value, 2.5, GAP_MOST.value)
#: Places of which a supply may serve for one of another: what fills or seals.
_FILLERS: Final = frozenset({Slot.RING, Slot.HALF_RING, Slot.STRIP, Slot.PASTE})


@dataclass(frozen=True, slots=True)
class Alternative:
    """``text`` names it to the clinician, with its size."""

    fixed: Fixed
    text: str


def alternatives(
    findings: Findings, history: History, fixed: tuple[Fixed, ...] = ()
) -> Mapping[str, tuple[Alternative, ...]]:
    """By the key of each recommendation that the plan alone proposes: what may be chosen instead,
    with everything else that is ``fixed``. Empty for an emergency and for anyone under 16."""
    situation = ranked_facts_of(findings, history)
    if situation.emergency or situation.facts.age_group is not AgeGroup.ADULT:
        return {}
    chosen = choose(situation)
    proposed = plan_of(chosen)
    found: dict[str, tuple[Alternative, ...]] = {}
    for item in proposed.recommendations:
        others = tuple(one for one in fixed if one.key != item.key)
        offered = tuple(_offered(item, others, chosen, proposed))
        if offered:
            found[item.key] = offered
    return found


def _offered(
    item: Recommendation, others: tuple[Fixed, ...], chosen: SystemChoice, proposed: Plan
) -> Iterator[Alternative]:
    for one in _candidates(item, chosen, proposed):
        try:
            plan = plan_with(chosen, (*others, one))
        except Refused:
            continue
        if _is_made(one, item, plan):
            yield Alternative(one, _words(one, plan, chosen))


def _is_made(one: Fixed, item: Recommendation, plan: Plan) -> bool:
    """The plan made again says it, once."""
    said = [found for found in plan.recommendations if found.key == key_made(one)]
    if one.kind is FixedKind.NONE:
        return all(found.change is Change.STOP for found in said)
    return len(said) == 1 and said[0].change is not Change.STOP


def _candidates(item: Recommendation, chosen: SystemChoice, proposed: Plan) -> Iterator[Fixed]:
    if item.kind is ItemKind.WEAR:
        first, last, _ = days_allowed(chosen)
        for day in range(first, last + 1):
            if chosen.wear.limit != day:
                yield Fixed(item.key, FixedKind.DAY, amount=float(day))
    elif item.key == "opening":
        yield from _of_opening(item, chosen)
    elif item.key in SUPPLIES:
        yield from _of_supply(item, proposed)


def _of_opening(item: Recommendation, chosen: SystemChoice) -> Iterator[Fixed]:
    least, most = gaps_allowed(chosen.situation.facts)
    now = chosen.sizes.gap_mm
    for gap in GAPS:
        if least <= gap <= most and (now is None or abs(gap - now) > _SAME_MM):
            yield Fixed(item.key, FixedKind.GAP, amount=gap)
    for supply in SUPPLIES.values():
        if supply.slot is Slot.OPENING and supply.key not in chosen.supplies:
            yield Fixed(item.key, FixedKind.SUPPLY, supply.key)


#: Gaps that differ by less are the same (mm, a tenth is what is printed).
_SAME_MM: Final = 0.05


def _of_supply(item: Recommendation, proposed: Plan) -> Iterator[Fixed]:
    supply = SUPPLIES[item.key]
    if item.change is Change.STOP:
        # Worn, and to be left off: it may be kept.
        yield Fixed(item.key, FixedKind.SUPPLY, item.key)
        return
    named = {one.key for one in proposed.recommendations}
    for other in SUPPLIES.values():
        if other.key not in named and _may_serve(item, other.key, proposed):
            yield Fixed(item.key, FixedKind.SUPPLY, other.key)
    if supply.slot not in FILLED:
        yield Fixed(item.key, FixedKind.NONE)


def _may_serve(item: Recommendation, other: str, proposed: Plan) -> bool:
    """In the same place; or another filler made for the same need, where none is worn."""
    here, there = SUPPLIES[item.key].slot, SUPPLIES[other].slot
    if here is there:
        return True
    if item.change is not Change.START or not {here, there} <= _FILLERS:
        return False
    needs = [need for need in proposed.needs if need.key in item.need_keys]
    return bool(needs) and all(
        any(supply.key == other for supply in providers_of(need)) for need in needs
    )


def _words(one: Fixed, plan: Plan, chosen: SystemChoice) -> str:
    if one.kind is FixedKind.DAY:
        days = int(one.amount or 0)
        return "Change every day" if days == 1 else f"Change on day {days} at the latest"
    if one.kind is FixedKind.NONE:
        return "None: leave it off"
    if one.kind is FixedKind.GAP:
        found = opening_wanted(chosen.situation.facts, frozenset(plan.supplies), one.amount)
        return "" if found is None else f"{_size(plan)}, {one.amount:.1f} mm free on every side"
    supply = SUPPLIES[one.supply]
    name = f"{supply.name[:1].upper()}{supply.name[1:]}"
    if supply.slot is not Slot.OPENING or plan.dimensions.opening_length_mm is None:
        return f"Keep it: {supply.name}" if one.supply == one.key else name
    return f"{name}, {_size(plan)}"


def _size(plan: Plan) -> str:
    length = plan.dimensions.opening_length_mm or 0.0
    width = plan.dimensions.opening_width_mm or 0.0
    return f"{length:.0f} mm" if abs(length - width) < 0.5 else f"{length:.0f} x {width:.0f} mm"
