"""Plans of a sound rule set, and how to put one sentence too many into them."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from planning.consistency.gate import faults
from planning.inputs.findings import Findings, History
from planning.pipeline import ranked_facts_of, unchecked_plan
from planning.ranked_facts import RankedFacts
from planning.results.message import Words, to_patient
from planning.results.plan import Change, ItemKind, Plan, Reason, Recommendation


def made(found: Findings, history: History | None = None) -> tuple[Plan, RankedFacts]:
    """The plan before it is checked, and what it was made from."""
    now = ranked_facts_of(found, history or History())
    return unchecked_plan(now), now


def advice(text: str, plain: Words | None = None, key: str = "tip", at: str = "") -> Recommendation:
    return Recommendation(
        key,
        ItemKind.TEACH,
        Change.START,
        text,
        (Reason("Because.", ("common_practice",), at),),
        (),
        to_patient(plain),
    )


def told(plan: Plan, *more: Recommendation) -> Plan:
    return replace(plan, recommendations=(*plan.recommendations, *more))


def noticed(plan: Plan, text: str, at: str = "") -> Plan:
    return replace(plan, notices=(*plan.notices, Reason(text, ("common_practice",), at)))


def in_order(plan: Plan, *keys: str) -> Plan:
    """With these steps first."""
    steps = {step.key: step for step in plan.steps}
    rest = [step for step in plan.steps if step.key not in keys]
    return replace(plan, steps=(*(steps[key] for key in keys), *rest))


def checks(plan: Plan, now: RankedFacts) -> set[str]:
    """Which checks find something."""
    return {fault.check for fault in faults(plan, now)}


def stepped(plan: Plan, key: str, **changes: Any) -> Plan:
    """With one step changed."""
    steps = tuple(replace(s, **changes) if s.key == key else s for s in plan.steps)
    return replace(plan, steps=steps)
