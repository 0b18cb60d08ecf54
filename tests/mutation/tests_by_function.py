"""Which tests enter which function: one traced run of the tests, kept until a file changes."""

from __future__ import annotations

import functools
import hashlib
import json
import os
import sys
import tempfile
import time
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType
from typing import Any

import pytest

from tests.mutation.child import in_child, run_tests
from tests.mutation.constants import functions_that_read
from tests.mutation.mutants import MODULE, Mutant


@dataclass(slots=True)
class Entered:
    """``tests``: seconds of each test, by its id; ``functions``: the tests that enter each."""

    tests: dict[str, float] = field(default_factory=dict)
    functions: dict[str, list[str]] = field(default_factory=dict)
    #: Where it is kept; any other file beside it belongs to the same planner and tests.
    kept: Path = Path()

    def by(self, mutant: Mutant, root: Path) -> list[str]:
        """The tests that enter the mutant's function, else its file, else all; quickest first.

        What is computed while importing is entered by no test: a constant meets the tests of the
        functions that read it.
        """
        file = f"{mutant.path.relative_to(root)}::"
        if mutant.function == MODULE:
            found = self._entering(functions_that_read(mutant, root))
        else:
            found = self._entering([file + mutant.function])
            found = found or self._entering(f for f in self.functions if f.startswith(file))
        return sorted(found or self.tests, key=lambda test: self.tests[test])

    def _entering(self, functions: Iterable[str]) -> set[str]:
        return {test for name in functions for test in self.functions.get(name, ())}


class _Tracer:
    def __init__(self, root: Path) -> None:
        self.prefix = f"{root}{os.sep}"
        self.seen: set[tuple[str, str]] = set()
        self.found = Entered()

    def enter(self, frame: FrameType, event: str, arg: object) -> None:
        code = frame.f_code
        if code.co_filename.startswith(self.prefix):
            self.seen.add((code.co_filename, code.co_qualname))

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        self.seen.clear()
        began = time.process_time()
        sys.settrace(self.enter)
        try:
            return (yield)
        finally:
            sys.settrace(None)
            self.found.tests[item.nodeid] = time.process_time() - began
            for name in {self._name(*seen) for seen in self.seen}:
                self.found.functions.setdefault(name, []).append(item.nodeid)

    def _name(self, path: str, function: str) -> str:
        return f"{path.removeprefix(self.prefix)}::{function.split('.<locals>')[0]}"


def keep_no_results(package: str = "planning") -> None:
    """Functions of ``package`` imported from now on are cached no more: else only the first test
    that asks for a result would be seen to enter them."""
    kept: Any = functools.lru_cache

    def lru_cache(maxsize: Any = 128, typed: bool = False) -> Any:
        if callable(maxsize):
            return lru_cache()(maxsize)

        def decorate(function: Callable[..., Any]) -> Callable[..., Any]:
            ours = function.__module__.partition(".")[0] == package
            return function if ours else kept(maxsize, typed)(function)

        return decorate

    functools.lru_cache = lru_cache  # ``cache`` calls it too


def entered(paths: list[str], root: Path) -> Entered:
    """The map for these tests. SystemExit where they fail without any change."""
    kept = _folder() / f"{_digest(paths, root)}.json"
    if not kept.exists():

        def work() -> int:
            keep_no_results()
            tracer = _Tracer(root)
            code = run_tests(paths, tracer)
            if not code:
                kept.write_text(json.dumps([tracer.found.tests, tracer.found.functions]))
            return code

        print("one traced run of", *paths, flush=True)
        if in_child(work, limit=3600, loud=True):
            raise SystemExit("these tests fail before anything is changed")
    tests, functions = json.loads(kept.read_text())
    return Entered(tests, functions, kept)


def _folder() -> Path:
    folder = Path(tempfile.gettempdir()) / f"mutation-{os.getuid()}"
    folder.mkdir(mode=0o700, exist_ok=True)
    return folder


def _digest(paths: list[str], root: Path) -> str:
    sums = hashlib.sha256("\n".join([str(root), *paths]).encode())
    for top in ("planning", "tests/planning", "tests/mutation"):
        for file in sorted((root / top).rglob("*.py")):
            sums.update(file.read_bytes())
    return sums.hexdigest()[:24]
