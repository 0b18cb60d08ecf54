"""The worked cases in ``fixtures/cases``: an answer sheet written by hand from the sources."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from planning import History, Plan, recommend
from planning.results.snapshot import findings_from_dict, history_from_dict

CASES = sorted((Path(__file__).parents[2] / "fixtures" / "cases").glob("*.json"))


def _missing_from(wanted: list[str], have: object) -> list[str]:
    return [item for item in wanted if item not in have]  # type: ignore[operator]


def _supplies(plan: Plan, wanted: list[str]) -> bool:
    return list(plan.supplies) == wanted


def _changes(plan: Plan, wanted: dict[str, str]) -> bool:
    found = {r.key: r.change.value for r in plan.recommendations}
    return {key: found.get(key) for key in wanted} == wanted


def _in_order(plan: Plan, wanted: list[str]) -> bool:
    return [s.key for s in plan.steps if s.key in wanted] == wanted


def _sizes(plan: Plan, wanted: dict[str, Any]) -> bool:
    found = {name: getattr(plan.dimensions, name) for name in wanted}
    return found == {k: pytest.approx(v) if type(v) is float else v for k, v in wanted.items()}


def _keys(parts: tuple[Any, ...]) -> set[str]:
    return {part.key for part in parts}


#: What a case may expect, and how it is looked up.
CHECKS: dict[str, Callable[[Plan, Any], bool]] = {
    "urgency": lambda p, v: p.urgency.value == v,
    "leave_alone": lambda p, v: p.leave_alone is v,
    "flags": lambda p, v: {f.key: f.urgency.value for f in p.red_flags} == v,
    "first_cause": lambda p, v: p.causes.causes[0].key == v,
    "not_first_cause": lambda p, v: p.causes.causes[0].key != v,
    "causes_with": lambda p, v: set(v) <= _keys(p.causes.causes),
    "cannot_tell_apart": lambda p, v: set(p.causes.cannot_tell_apart) == set(v),
    "needs": lambda p, v: {n.key: n.amount for n in p.needs if n.key in v} == v,
    "need_hours": lambda p, v: {n.key: list(n.hours) for n in p.needs if n.key in v} == v,
    "supplies": _supplies,
    "supplies_with": lambda p, v: not _missing_from(v, p.supplies),
    "supplies_without": lambda p, v: not set(v) & set(p.supplies),
    "no_convexity": lambda p, _: not any("convex" in key for key in p.supplies),
    "changes": _changes,
    "all_changes": lambda p, v: {r.change.value for r in p.recommendations} == set(v),
    "recommendations_with": lambda p, v: set(v) <= _keys(p.recommendations),
    "recommendations_without": lambda p, v: not set(v) & _keys(p.recommendations),
    "dimensions": _sizes,
    "steps_in_order": _in_order,
    "no_steps": lambda p, _: p.steps == (),
    "follow_up_days": lambda p, v: p.follow_up.in_days == v,
    "missing_with": lambda p, v: set(v) <= {r.finding for r in p.missing},
}


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_case(path: Path) -> None:
    case = json.loads(path.read_text())
    history = history_from_dict(case["history"]) if "history" in case else History()
    plan = recommend(findings_from_dict(case["findings"]), history)
    failed = [name for name, value in case["expect"].items() if not CHECKS[name](plan, value)]
    assert failed == []


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_a_case_says_what_it_teaches_and_on_whose_word(path: Path) -> None:
    case = json.loads(path.read_text())
    assert case["title"]
    assert case["teaches"]
    assert case["source"]
    assert len(case["expect"]) >= 2


def test_all_scenarios_are_there() -> None:
    assert len(CASES) >= 25
