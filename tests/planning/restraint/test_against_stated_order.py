"""What the planner changes today against the order stated plainly, every way tried."""

from __future__ import annotations

import json

import pytest
from hypothesis import given, settings

from planning import Findings, History
from planning.results.snapshot import findings_from_dict, history_from_dict
from tests.benchmarks.staging import differs
from tests.planning.acceptance.cases import Case, cases
from tests.planning.strategies import findings, plain_histories
from tests.planning.sweep import states
from tests.planning.test_cases import CASES


def test_the_worked_cases() -> None:
    for path in CASES:
        case = json.loads(path.read_text())
        history = history_from_dict(case["history"]) if "history" in case else History()
        assert not differs(findings_from_dict(case["findings"]), history), path.stem


@pytest.mark.parametrize("case", cases(), ids=lambda case: case.name)
def test_the_acceptance_cases(case: Case) -> None:
    assert not differs(case.findings, case.history)


def test_states_all_over_the_space() -> None:
    for found, history in states(700):
        assert not differs(found, history)


@settings(max_examples=40)
@given(findings, plain_histories)
def test_generated_findings(found: Findings, history: History) -> None:
    assert not differs(found, history)
