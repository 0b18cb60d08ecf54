"""Every statement of one case against its plan: what is unmet, and what the plan says instead."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planning import InvalidFindings, Plan, recommend
from tests.planning.acceptance.cases import Case
from tests.planning.acceptance.counting import changes
from tests.planning.acceptance.levels import level_of, sooner_by
from tests.planning.acceptance.statements import answer


@dataclass(frozen=True)
class Unmet:
    """``statement`` names it in the case; ``said``: what the plan holds instead."""

    statement: str
    said: str


def unmet(case: Case) -> tuple[Unmet, ...]:
    """Everything the plan of ``case`` leaves unmet, in the order of the case."""
    try:
        plan = recommend(case.findings, case.history)
    except InvalidFindings as invalid:
        reasons = "; ".join(f"{error.path}: {error.message}" for error in invalid.errors)
        return (Unmet("a plan is made", reasons),)
    return tuple(_all(case, plan))


def _all(case: Case, plan: Plan) -> Iterator[Unmet]:
    yield from _urgency(case, plan)
    yield from _number(case, plan)
    yield from _emergency_page(case, plan)
    for statement in case.expect["must"]:
        found = answer(statement, plan, case.findings)
        if not found.holds:
            yield Unmet(f"must: {statement['says']}", found.said)
    for statement in case.expect["must_not"]:
        found = answer(statement, plan, case.findings)
        if found.holds:
            yield Unmet(f"must not: {statement['says']}", found.said)


def _urgency(case: Case, plan: Plan) -> Iterator[Unmet]:
    """The level is the latest allowed. One sooner is wrong only where the case says so."""
    wanted, found = case.expect["urgency"], level_of(plan)
    sooner = sooner_by(found, wanted)
    most = 0 if case.expect.get("not_sooner") else 1
    if not 0 <= sooner <= most:
        flags = ", ".join(f"{flag.key} {flag.urgency.value}" for flag in plan.red_flags)
        seen = f"next visit in {plan.follow_up.in_days} days"
        yield Unmet(f"urgency {wanted}", f"{found} ({flags or 'no danger'}; {seen})")


def _number(case: Case, plan: Plan) -> Iterator[Unmet]:
    most, found = case.expect["at_most"], changes(plan, case.findings)
    if len(found) > most:
        yield Unmet(f"at most {most} changes", f"{len(found)}: {', '.join(found)}")


def _emergency_page(case: Case, plan: Plan) -> Iterator[Unmet]:
    """An emergency holds no ladder, no order and no routine visit."""
    if case.expect["urgency"] != "emergency":
        return
    held = [name for name in ("steps", "quantities", "supplies") if getattr(plan, name)]
    if held:
        yield Unmet("an emergency holds no supply plan", ", ".join(held))
