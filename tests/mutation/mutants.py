"""Every mutant of one file: where, in which function, what was changed, the whole changed tree."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from types import CodeType
from typing import Final

from tests.mutation.changes import changes_of, checks_code, is_threshold

#: Types, and what decorates a class or function, are no rules.
_LEFT_ALONE: Final = frozenset({"annotation", "returns", "decorator_list"})
#: A statement outside every function.
MODULE: Final = "<module>"


@dataclass(frozen=True, slots=True)
class Place:
    """One field of one node, and the function a traced run knows it by."""

    parent: ast.AST
    field: str
    index: int | None
    node: ast.AST
    function: str
    line: int

    def put(self, node: ast.AST) -> None:
        if self.index is None:
            setattr(self.parent, self.field, node)
        else:
            getattr(self.parent, self.field)[self.index] = node


@dataclass(frozen=True, slots=True)
class Mutant:
    path: Path
    line: int
    function: str
    change: str
    #: The nth change of the file, from which ``tree_of`` makes it again.
    number: int


def mutants_of(path: Path) -> list[Mutant]:
    tree = ast.parse(path.read_text())
    return [
        Mutant(path, place.line, place.function, _words(place.node, changed), number)
        for number, (place, changed) in enumerate(_all(tree))
    ]


def tree_of(mutant: Mutant) -> ast.Module:
    """The changed file, ready to compile."""
    tree = ast.parse(mutant.path.read_text())
    for number, (place, changed) in enumerate(_all(tree)):
        if number == mutant.number:
            place.put(ast.copy_location(changed, place.node))
            return ast.fix_missing_locations(tree)
    raise LookupError(f"{mutant.path} has no change {mutant.number}")


class Compiled:
    """One file, read once: its code as it is and with each change."""

    def __init__(self, path: Path) -> None:
        self.path = str(path)
        self.tree = ast.parse(path.read_text())
        self.before = self._code()
        self.changes = list(_all(self.tree))

    def after(self, mutant: Mutant) -> CodeType:
        place, changed = self.changes[mutant.number]
        place.put(ast.fix_missing_locations(ast.copy_location(changed, place.node)))
        try:
            return self._code()
        finally:
            place.put(place.node)

    def _code(self) -> CodeType:
        return compile(self.tree, self.path, "exec", dont_inherit=True)


def functions_of(tree: ast.AST, scope: str = "") -> Iterator[tuple[str, ast.AST]]:
    """The outermost functions, also those of classes, by the name a traced run knows them by."""
    for child in ast.iter_child_nodes(tree):
        name, inside = _scope(child, scope, False)
        if inside:
            yield name, child
        else:
            yield from functions_of(child, name)


def _all(tree: ast.Module) -> Iterator[tuple[Place, ast.AST]]:
    for place in list(_places(tree, "", False, 1)):
        for changed in changes_of(place.node):
            yield place, changed


def _places(node: ast.AST, scope: str, inside: bool, line: int) -> Iterator[Place]:
    for field, value in ast.iter_fields(node):
        if field in _LEFT_ALONE:
            continue
        for index, child in enumerate(value) if isinstance(value, list) else ((None, value),):
            if not isinstance(child, ast.AST) or checks_code(child):
                continue
            if is_threshold(node) and field == "args":
                continue
            at = getattr(child, "lineno", line)
            yield Place(node, field, index, child, scope if inside else MODULE, at)
            yield from _places(child, *_scope(child, scope, inside), at)


def _scope(node: ast.AST, scope: str, inside: bool) -> tuple[str, bool]:
    """Classes down to the outermost function; what that function holds counts as its own."""
    if inside:
        return scope, True
    match node:
        case ast.FunctionDef(name=name) | ast.AsyncFunctionDef(name=name):
            return f"{scope}{name}", True
        case ast.Lambda():
            return f"{scope}<lambda>", True
        case ast.ClassDef(name=name):
            return f"{scope}{name}.", False
    return scope, False


def _words(before: ast.AST, after: ast.AST) -> str:
    if isinstance(before, ast.If) and isinstance(after, ast.If):
        before, after = before.test, after.test
    return f"{_short(before)}  ->  {_short(after)}"


def _short(node: ast.AST) -> str:
    text = " ".join(ast.unparse(node).split())
    return text if len(text) <= 80 else f"{text[:77]}..."
