"""Which functions read a constant of a module, straight or through another constant."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from tests.mutation.mutants import MODULE, Mutant, functions_of


def functions_that_read(mutant: Mutant, root: Path) -> set[str]:
    """``file::function`` of each, tests too; none where the change is in no constant's value."""
    parts = mutant.path.relative_to(root).parts
    readers = _readers(root, (parts[0], "tests/planning"))
    found: set[str] = set()
    constants = {(name, "/".join(parts)) for name in _assigned_at(mutant)}
    while constants:
        name, file = constants.pop()
        for reader in readers.get(name, set()) - found:
            where, _, what = reader.partition("::")
            # A private name of another file is another thing.
            if not name.startswith("_") or where == file:
                found.add(reader)
                if what.startswith(MODULE):
                    constants.add((what.removeprefix(MODULE), where))
    return {reader for reader in found if f"::{MODULE}" not in reader}


@cache
def _readers(root: Path, tops: tuple[str, ...]) -> dict[str, set[str]]:
    """Each name, and the functions and constants whose text has it."""
    readers: dict[str, set[str]] = {}
    for path in (file for top in tops for file in _files(root / top)):
        file = path.relative_to(root).as_posix()
        tree = ast.parse(path.read_text())
        for function, node in functions_of(tree):
            for name in _names(node):
                readers.setdefault(name, set()).add(f"{file}::{function}")
        for statement in tree.body:
            for target in _targets(statement):
                for name in _names(statement) - {target}:
                    readers.setdefault(name, set()).add(f"{file}::{MODULE}{target}")
    return readers


def _files(top: Path) -> list[Path]:
    return [top] if top.is_file() else sorted(top.rglob("*.py"))


def _assigned_at(mutant: Mutant) -> set[str]:
    for statement in ast.parse(mutant.path.read_text()).body:
        if statement.lineno <= mutant.line <= (statement.end_lineno or statement.lineno):
            return set(_targets(statement))
    return set()


def _targets(statement: ast.stmt) -> Iterator[str]:
    match statement:
        case ast.Assign(targets=[ast.Name(id=name)]) | ast.AnnAssign(target=ast.Name(id=name)):
            yield name


def _names(node: ast.AST) -> set[str]:
    inner = list(ast.walk(node))
    names = {part.id for part in inner if isinstance(part, ast.Name)}
    return names | {part.attr for part in inner if isinstance(part, ast.Attribute)}
