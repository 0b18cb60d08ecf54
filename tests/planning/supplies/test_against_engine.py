"""The choice against CLIPS, a general rule engine: the same order written as its rules."""

from __future__ import annotations

import pytest

from planning import History
from planning.inputs.findings import Findings
from tests.benchmarks.assessment import FULL, HISTORY
from tests.benchmarks.choice import by_search, choice_of
from tests.benchmarks.engine import Engine
from tests.planning.supplies.test_search import CASES
from tests.planning.sweep import states

ENGINE = Engine()


@pytest.mark.parametrize("found", CASES)
def test_the_engine_chooses_alike(found: Findings) -> None:
    choice = choice_of(found, History())
    assert by_search(choice) == ENGINE.choose(choice)


def test_the_engine_chooses_alike_on_a_full_assessment_and_all_over_the_space() -> None:
    for found, history in [(FULL, HISTORY), *states(100)]:
        choice = choice_of(found, history)
        assert by_search(choice) == ENGINE.choose(choice)
