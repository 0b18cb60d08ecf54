"""The tool itself, on a made module: what it changes, and that it tells a test that bites."""

from __future__ import annotations

import ast
import functools
import importlib
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from planning.evidence.thresholds import CHILD_UNDER
from tests.mutation.changed_import import serve
from tests.mutation.equivalent import LIST, listed, without_equivalent
from tests.mutation.live import Live
from tests.mutation.mutants import MODULE, Mutant, mutants_of, tree_of
from tests.mutation.tests_by_function import Entered, keep_no_results
from tests.mutation.verdicts import Verdicts, line_of, survivors

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


def test_every_change_of_the_planner_compiles() -> None:
    """Else it would pass for a change that the tests noticed."""
    path = Path(__file__).resolve().parents[2] / "planning" / "geometry" / "ring.py"
    for mutant in mutants_of(path):
        compile(tree_of(mutant), str(path), "exec")


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


def test_only_tests_that_enter_the_function_run_quickest_first_and_all_where_none_does(
    made: Path,
) -> None:
    name = made.name
    known = Entered(
        {"a": 3.0, "b": 2.0, "c": 1.0}, {f"{name}::high": ["a"], f"{name}::Pair.sum": ["b"]}
    )
    in_high, outside = find(made, "value >= LIMIT  ->  value > LIMIT"), find(made, "5  ->  6")
    assert known.by(in_high, made.parent) == ["a"]
    assert known.by(outside, made.parent) == ["a"]  # it reads LIMIT
    assert known.by(replace(in_high, function="low"), made.parent) == ["b", "a"]
    assert Entered(known.tests, {}).by(in_high, made.parent) == ["c", "b", "a"]


def test_a_change_is_put_into_a_module_that_is_already_imported(
    made: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.syspath_prepend(made.parent)
    module = importlib.import_module(made.stem)
    del sys.modules[made.stem]
    live = Live(made.parent)
    assert live.put(find(made, "value >= LIMIT  ->  value > LIMIT"))
    assert live.put(find(made, "x + b  ->  x - b"))
    assert [module.high(5), module.high(6), module.Pair().sum(3, 1)] == [False, True, 2]
    assert not live.put(find(made, "5  ->  6"))  # it was read while importing


def test_a_lazy_object_is_not_asked_what_it_stands_for(made: Path) -> None:
    class Lazy:
        @property  # type: ignore[misc]
        def __class__(self) -> type:
            raise RuntimeError("made too late")

    kept = Lazy()
    assert Live(made.parent).functions
    del kept


def test_a_threshold_is_moved_where_it_is_read() -> None:
    path = Path(sys.modules[CHILD_UNDER.__module__].__file__ or "")
    mutant = next(m for m in mutants_of(path) if m.change.startswith("_figure(16, "))
    before = CHILD_UNDER.value
    try:
        assert Live(path.parents[2]).put(mutant)
        assert before < CHILD_UNDER.value
    finally:
        object.__setattr__(CHILD_UNDER, "value", before)


def test_a_known_equivalent_is_left_out_and_must_still_be_there(made: Path) -> None:
    every, root = mutants_of(made), made.parent
    second = f"{made.name}::Pair.sum  0  ->  1 (2)"
    left = without_equivalent(every, root, f"# a remark\n{second}\n    for a reason\n")
    assert [m for m in every if m not in left] == [every[-1]]
    assert without_equivalent(every, root, "other.py::f  1  ->  2\n    for a reason\n") == every
    with pytest.raises(ValueError, match="no such mutant any more"):
        without_equivalent(every, root, f"{made.name}::Pair.sum  1  ->  2\n    for a reason\n")
    with pytest.raises(ValueError, match="then its reason"):
        without_equivalent(every, root, f"{second}\n")


def test_the_list_of_equivalents_names_mutants_of_the_planner() -> None:
    root = Path(__file__).resolve().parents[2]
    files = {root / entry.split("::")[0] for entry in listed(LIST.read_text())}
    for file in files:
        without_equivalent(mutants_of(file), root, LIST.read_text())


def test_survivors_are_read_back_and_a_stopped_run_goes_on(made: Path) -> None:
    every = mutants_of(made)[:2]
    kept = made.with_suffix(".verdicts")
    Verdicts(kept).of(every[0], made.parent, lambda _: True)

    def never(mutant: Mutant) -> bool:
        raise AssertionError(mutant)

    assert Verdicts(kept).of(every[0], made.parent, never)
    output = "\n".join(line_of(m, made.name, m is every[0]) for m in every)
    assert survivors(output) == {(made.name, every[0].change)}


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
