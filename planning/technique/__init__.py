"""Stage 7: the steps of the change for this stoma, in one order that never varies."""

from __future__ import annotations

import heapq
from functools import cache
from graphlib import TopologicalSorter

from planning.results.plan import Step
from planning.supplies.system_choice import SystemChoice
from planning.technique.rule import StepRule
from planning.technique.skin_steps import RULES as SKIN
from planning.technique.system_steps import RULES as SYSTEM

#: Every step there is. Where nothing constrains two steps, this order applies.
RULES: tuple[StepRule, ...] = (*SKIN, *SYSTEM)


def technique(chosen: SystemChoice) -> tuple[Step, ...]:
    """The steps that this system and these findings call for, in order."""
    return tuple(rule.step(chosen) for rule in in_order() if rule.applies(chosen))


@cache
def in_order() -> tuple[StepRule, ...]:
    """All steps in one topological order; raises ``graphlib.CycleError`` on a circle."""
    place = {rule.key: i for i, rule in enumerate(RULES)}
    sorter = TopologicalSorter({rule.key: rule.after for rule in RULES})
    sorter.prepare()
    ready: list[int] = []
    ordered: list[StepRule] = []
    while sorter.is_active():
        for key in sorter.get_ready():
            heapq.heappush(ready, place[key])
        rule = RULES[heapq.heappop(ready)]
        ordered.append(rule)
        sorter.done(rule.key)
    return tuple(ordered)
