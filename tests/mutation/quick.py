"""Mutants against tests that are imported and collected once: a fork a mutant, no import."""

from __future__ import annotations

import os
from itertools import pairwise
from multiprocessing import Pipe
from multiprocessing.connection import Connection
from multiprocessing.sharedctypes import RawValue
from pathlib import Path
from typing import Any, Final

import pytest
from hypothesis import Phase, settings

from tests.mutation.child import PASSED, in_child, run_tests
from tests.mutation.live import Live
from tests.mutation.mutants import Mutant

#: The change cannot be put into a module that is already imported.
NOT_QUICK: Final = 90
FAILED: Final = 1
_LAST: Final = 20
_SHRINKS: Final = "_hypothesis_internal_use_settings"


class Quick:
    """A process of its own that holds the collected tests and is asked one mutant at a time."""

    def __init__(self, paths: list[str], root: Path) -> None:
        self.ours, theirs = Pipe()
        self.pid = os.fork()
        if not self.pid:
            self.ours.close()
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, 1)
            os.dup2(nowhere, 2)
            os._exit(run_tests(paths, _Server(theirs, root)))
        theirs.close()

    def ask(self, mutant: Mutant, tests: list[str], limit: float) -> int:
        """PASSED or FAILED; NOT_QUICK, or what else ended the process, where it is not known."""
        self.ours.send((mutant, tests, limit))
        code: int = self.ours.recv()
        return code

    def end(self) -> None:
        self.ours.send(None)
        os.waitpid(self.pid, 0)


class _Server:
    def __init__(self, asked: Connection, root: Path) -> None:
        self.asked, self.root = asked, root
        self.failed: dict[Path, dict[str, None]] = {}
        #: Written by the fork: the place of the test it came to.
        self.reached = RawValue("i", 0)

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        items = {item.nodeid: item for item in session.items}
        for item in session.items:
            _report_the_first_failure(getattr(item, "obj", None))
        live = Live(self.root)
        while question := self.asked.recv():
            mutant, tests, limit = question
            live.compiled(mutant.path)
            tests = self._likeliest_first(mutant, tests)

            def work(mutant: Mutant = mutant, tests: list[str] = tests) -> int:
                if not live.put(mutant):
                    return NOT_QUICK
                return self._run(session, [items[test] for test in tests])

            answer = in_child(work, limit)
            if answer == FAILED:
                self.failed.setdefault(mutant.path, {})[tests[self.reached.value]] = None
            self.asked.send(answer)
        return True

    def _likeliest_first(self, mutant: Mutant, tests: list[str]) -> list[str]:
        """What noticed the last changes of this file, then the others in their order."""
        last = [t for t in reversed(self.failed.get(mutant.path, {})) if t in set(tests)]
        return list(dict.fromkeys([*last[:_LAST], *tests]))

    def _run(self, session: pytest.Session, items: list[pytest.Item]) -> int:
        for at, (item, following) in enumerate(pairwise([*items, None])):
            assert item is not None
            self.reached.value = at
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
            if session.testsfailed:
                return FAILED
        return PASSED


def _report_the_first_failure(test: Any) -> None:
    """Hypothesis seeks the smallest example that fails; any will do here."""
    test = getattr(test, "__func__", test)
    if kept := getattr(test, _SHRINKS, None):
        setattr(test, _SHRINKS, settings(kept, phases=(Phase.explicit, Phase.generate)))
