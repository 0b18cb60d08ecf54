"""One mutant against the tests that enter it: quickly, then a survivor from the start."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Final

import pytest

from tests.mutation.changed_import import module_name, serve
from tests.mutation.child import PASSED, TIMED_OUT, in_child, run_tests
from tests.mutation.mutants import Mutant, tree_of
from tests.mutation.quick import FAILED, Quick
from tests.mutation.tests_by_function import Entered

#: A mutant may take this many times what its tests take unchanged, and the start of a run on top.
TIMES: Final = 10.0
START_SECONDS: Final = 30.0
#: The same where the tests are collected already.
QUICK_START_SECONDS: Final = 5.0
#: What pytest answers where nothing was left to run.
_NO_TESTS: Final = 5
#: The same where a test file fails while it is imported.
_INTERRUPTED: Final = 2


class Trial:
    """``longest``: a test that takes more seconds is not tried."""

    def __init__(self, paths: list[str], known: Entered, root: Path, longest: float) -> None:
        self.known, self.root, self.longest = known, root, longest
        self.quick = Quick(paths, root)

    def end(self) -> None:
        self.quick.end()

    def survives(self, mutant: Mutant) -> bool:
        """Whether every test that enters the changed function still passes, in time."""
        seconds = self.known.tests
        chosen = [t for t in self.known.by(mutant, self.root) if seconds[t] <= self.longest]
        limit = TIMES * sum(seconds[test] for test in chosen)
        if self.quick.ask(mutant, chosen, limit + QUICK_START_SECONDS) == FAILED:
            return False
        answer = in_child(lambda: self._from_the_start(mutant, chosen), limit + START_SECONDS)
        if answer not in (PASSED, _NO_TESTS, FAILED, _INTERRUPTED, TIMED_OUT):
            raise RuntimeError(f"no trial, exit code {answer}: {mutant}")
        return answer in (PASSED, _NO_TESTS)

    def _from_the_start(self, mutant: Mutant, chosen: Iterable[str]) -> int:
        """Also what the change does while its module is imported."""
        tree = tree_of(mutant)
        compile(tree, str(mutant.path), "exec")  # a change that is no code is the tool's fault
        serve(module_name(mutant.path, self.root), mutant.path, tree)
        files = sorted({test.split("::")[0] for test in chosen})
        try:
            return run_tests(files, _Chosen(list(chosen), set(self.known.tests)))
        except Exception:  # the planner can no longer be imported
            return FAILED


class _Chosen:
    """Keeps the chosen tests, in their order. A test whose name came with the change runs too."""

    def __init__(self, chosen: list[str], known: set[str]) -> None:
        self.place, self.known = {test: at for at, test in enumerate(chosen)}, known

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items[:] = sorted(
            (i for i in items if i.nodeid in self.place or i.nodeid not in self.known),
            key=lambda item: self.place.get(item.nodeid, -1),
        )
