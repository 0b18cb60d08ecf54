"""The tool itself, on a made module: what it changes, and that it tells a test that bites."""

from __future__ import annotations

import ast
import functools
import importlib
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from tests.mutation.changed_import import serve
from tests.mutation.mutants import MODULE, Mutant, mutants_of, tree_of
from tests.mutation.tests_by_function import Entered, keep_no_results

MADE = """
LIMIT: int = 5


def high(value: int | None) -> bool:
    return value is not None and value >= LIMIT


class Pair:
    def sum(self, a: int, b: int) -> int:
        return [x + b for x in (a,) if not b < 0][0]
"""


@pytest.fixture
def made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    path = tmp_path / "made_for_mutation.py"
    path.write_text(MADE)
    monkeypatch.setattr(sys, "meta_path", list(sys.meta_path))
    monkeypatch.delitem(sys.modules, path.stem, raising=False)
    return path


def find(path: Path, change: str) -> Mutant:
    return next(mutant for mutant in mutants_of(path) if mutant.change == change)


def test_each_kind_of_change_is_made_once_with_its_place(made: Path) -> None:
    both = "value is not None and value >= LIMIT"
    filtered = "for x in (a,) if not b < 0"
    assert [(m.line, m.function, m.change) for m in mutants_of(made)] == [
        (2, MODULE, "5  ->  6"),
        (6, "high", f"return {both}  ->  return None"),
        (6, "high", f"{both}  ->  value is not None or value >= LIMIT"),
        (6, "high", f"{both}  ->  value >= LIMIT"),
        (6, "high", f"{both}  ->  value is not None"),
        (6, "high", "value is not None  ->  value is None"),
        (6, "high", "value >= LIMIT  ->  value > LIMIT"),
        (11, "Pair.sum", f"return [x + b {filtered}][0]  ->  return None"),
        (11, "Pair.sum", "x + b  ->  x - b"),
        (11, "Pair.sum", f"{filtered}  ->  for x in (a,)"),
        (11, "Pair.sum", "not b < 0  ->  b < 0"),
        (11, "Pair.sum", "b < 0  ->  b <= 0"),
        (11, "Pair.sum", "0  ->  1"),
        (11, "Pair.sum", "0  ->  1"),
    ]


def test_the_changed_module_is_imported_and_the_file_stays_as_it_was(made: Path) -> None:
    mutant = find(made, "value >= LIMIT  ->  value > LIMIT")
    serve(made.stem, made, tree_of(mutant))
    module = importlib.import_module(made.stem)
    try:
        assert (module.high(5), module.high(6)) == (False, True)
        assert made.read_text() == MADE
        assert [path.name for path in made.parent.iterdir()] == [made.name]
        with pytest.raises(RuntimeError, match="already imported"):
            serve(made.stem, made, ast.parse(MADE))
    finally:
        del sys.modules[made.stem]


def test_only_tests_that_enter_the_function_run_and_all_of_the_file_where_none_does(
    made: Path,
) -> None:
    name = made.name
    known = Entered(
        {"a": 1.0, "b": 1.0, "c": 1.0}, {f"{name}::high": ["a"], f"{name}::Pair.sum": ["b"]}
    )
    in_high, outside = find(made, "value >= LIMIT  ->  value > LIMIT"), find(made, "5  ->  6")
    assert known.by(in_high, made.parent) == {"a"}
    assert known.by(outside, made.parent) == {"a", "b", "c"}
    assert known.by(replace(in_high, function="low"), made.parent) == {"a", "b"}
    assert Entered(known.tests, {}).by(in_high, made.parent) == {"a", "b", "c"}


CACHED = """
from functools import cache, lru_cache

calls = []


@cache
def once(value: int) -> int:
    calls.append(value)
    return value


@lru_cache(maxsize=4)
def also(value: int) -> int:
    return once(value)
"""


def test_a_result_asked_for_twice_is_worked_out_twice(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """So that every test that rests on it is seen to enter it; other packages' are still kept."""
    (tmp_path / "made_with_caches.py").write_text(CACHED)
    monkeypatch.syspath_prepend(tmp_path)
    monkeypatch.setattr(functools, "lru_cache", functools.lru_cache)
    keep_no_results("made_with_caches")
    module = importlib.import_module("made_with_caches")
    del sys.modules["made_with_caches"]
    assert [module.also(3), module.also(3), module.once(3)] == [3, 3, 3]
    assert module.calls == [3, 3, 3]
    assert hasattr(functools.cache(len), "cache_info")
