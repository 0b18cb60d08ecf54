"""One mutant against the tests that enter it."""

from __future__ import annotations

from pathlib import Path
from typing import Final

import pytest

from tests.mutation.changed_import import module_name, serve
from tests.mutation.child import in_child, run_tests
from tests.mutation.mutants import Mutant, tree_of
from tests.mutation.tests_by_function import Entered

#: A mutant may take this many times what its tests take unchanged, and the start of a run on top.
TIMES: Final = 5.0
START_SECONDS: Final = 30.0
#: What pytest answers where everything passed, or nothing was left to run.
_PASSED: Final = (0, 5)


class _Chosen:
    """Keeps the chosen tests, quickest first. A test whose name came with the change runs too."""

    def __init__(self, chosen: set[str], seconds: dict[str, float]) -> None:
        self.chosen, self.seconds = chosen, seconds

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items[:] = sorted(
            (i for i in items if i.nodeid in self.chosen or i.nodeid not in self.seconds),
            key=lambda item: self.seconds.get(item.nodeid, 0.0),
        )


def survives(mutant: Mutant, known: Entered, root: Path) -> bool:
    """Whether every test that enters the changed function still passes, in time."""
    chosen = known.by(mutant, root)
    files = sorted({test.split("::")[0] for test in chosen})

    def work() -> int:
        serve(module_name(mutant.path, root), mutant.path, tree_of(mutant))
        return run_tests(files, _Chosen(chosen, known.tests))

    limit = START_SECONDS + TIMES * sum(known.tests[test] for test in chosen)
    return in_child(work, limit) in _PASSED
