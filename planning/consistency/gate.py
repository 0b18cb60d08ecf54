"""All checks over a finished plan, and what becomes of a plan that does not pass."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Final

from planning.consistency.closed_pouch import empties_a_closed_pouch
from planning.consistency.opposites import excludes
from planning.consistency.order import wrong_order
from planning.consistency.reassurance import calls_blood_usual, reassures_what_is_flagged
from planning.consistency.said import Fault, Part, Said
from planning.consistency.shrinking import cut_bigger_while_it_shrinks
from planning.consistency.skin_words import broken_of_whole_skin
from planning.consistency.supplies import (
    carried_out_without,
    forbids_what_is_chosen,
    names_another,
    offers_what_harms,
)
from planning.consistency.urgencies import (
    asked_at_two_times,
    danger_at_two_times,
    plan_at_two_times,
    sign_at_two_times,
)
from planning.evidence.sources import PRACTICE
from planning.ranked_facts import RankedFacts
from planning.results.plan import Plan, Reason

CHECKS: Final[tuple[Callable[[Said], Iterator[Fault]], ...]] = (
    carried_out_without,
    names_another,
    forbids_what_is_chosen,
    offers_what_harms,
    excludes,
    reassures_what_is_flagged,
    calls_blood_usual,
    danger_at_two_times,
    asked_at_two_times,
    sign_at_two_times,
    plan_at_two_times,
    broken_of_whole_skin,
    empties_a_closed_pouch,
    wrong_order,
    cut_bigger_while_it_shrinks,
)
#: What may be taken out of a plan; a danger and the choice itself stay, and are only named.
_TAKEN_OUT: Final = (Part.ADVICE, Part.STEP, Part.NOTICE, Part.LATER)


def faults(plan: Plan, situation: RankedFacts) -> tuple[Fault, ...]:
    """Everything in ``plan`` that contradicts it; empty for a sound one."""
    said = Said(plan, situation)
    return tuple(fault for check in CHECKS for fault in check(said))


def consistent(plan: Plan, situation: RankedFacts) -> Plan:
    """``plan`` itself where it is sound; else without what contradicts it, which is said."""
    found = faults(plan, situation)
    return _without(plan, found) if found else plan


def _without(plan: Plan, found: tuple[Fault, ...]) -> Plan:
    gone = {fault.line for fault in found if _goes(fault)}
    keys = {part: {line.key for line in gone if line.part is part} for part in _TAKEN_OUT}
    notices = {line.text for line in gone if line.part is Part.NOTICE}
    said = dict.fromkeys(map(_in_words, found))
    return replace(
        plan,
        recommendations=tuple(i for i in plan.recommendations if i.key not in keys[Part.ADVICE]),
        steps=tuple(step for step in plan.steps if step.key not in keys[Part.STEP]),
        next_steps=tuple(later for later in plan.next_steps if later.key not in keys[Part.LATER]),
        notices=(
            *(notice for notice in plan.notices if notice.text not in notices),
            *(Reason(text, (PRACTICE,)) for text in said),
        ),
    )


def _goes(fault: Fault) -> bool:
    """A step in the wrong place is still needed: without it the change would not hold."""
    return fault.line.part in _TAKEN_OUT and fault.check != "order"


def _in_words(fault: Fault) -> str:
    said = fault.line.text.rstrip(".") or fault.line.key
    what = "Left out, as it contradicts this plan" if _goes(fault) else "This contradicts the plan"
    return f"{what} ({fault.why}): {said}. Tell the people who maintain the rules."
