"""What one node may become. Every change is one a slip of the hand could make."""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterator
from copy import deepcopy
from typing import Final, TypeGuard, TypeVar

Node = TypeVar("Node", bound=ast.AST)

_COMPARED: Final[dict[type[ast.cmpop], type[ast.cmpop]]] = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
}
_COMPUTED: Final[dict[type[ast.operator], type[ast.operator]]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.BitAnd: ast.BitOr,
    ast.BitOr: ast.BitAnd,
}
#: A threshold from here on is moved by 1 at least.
_LARGE: Final = 5


def changes_of(node: ast.AST) -> Iterator[ast.AST]:
    """Each changed copy of ``node``; the node itself stays as it is."""
    change = _CHANGES.get(type(node))
    return iter(()) if change is None else change(node)


def is_threshold(node: ast.AST) -> TypeGuard[ast.Call]:
    """A figure of ``planning.evidence.thresholds``."""
    match node:
        case ast.Call(func=ast.Name(id="_figure"), args=[_, _, *_]):
            return True
    return False


def checks_code(node: ast.AST) -> bool:
    """An ``assert``, or ``strict=True`` of ``zip``: no rule."""
    return isinstance(node, ast.Assert) or (isinstance(node, ast.keyword) and node.arg == "strict")


def _compare(node: ast.Compare) -> Iterator[ast.AST]:
    for at, op in enumerate(node.ops):
        changed = deepcopy(node)
        changed.ops[at] = _COMPARED[type(op)]()
        yield changed


def _compute(node: ast.BinOp) -> Iterator[ast.AST]:
    other = _COMPUTED.get(type(node.op))
    if other and not any(_is_text(side) for side in (node.left, node.right)):
        yield ast.BinOp(node.left, other(), node.right)


def _both_or_either(node: ast.BoolOp) -> Iterator[ast.AST]:
    yield ast.BoolOp(ast.Or() if isinstance(node.op, ast.And) else ast.And(), node.values)
    for changed in _one_less(node, "values", least=1):
        # An ``and`` of one part does not compile.
        yield changed if len(changed.values) > 1 else changed.values[0]


def _not(node: ast.UnaryOp) -> Iterator[ast.AST]:
    if isinstance(node.op, ast.Not):
        yield node.operand


def _turned_round(node: ast.If | ast.IfExp) -> Iterator[ast.AST]:
    """A plain question answered the other way; comparisons have changes of their own."""
    if isinstance(node.test, ast.Name | ast.Attribute | ast.Call):
        changed = deepcopy(node)
        changed.test = ast.UnaryOp(ast.Not(), changed.test)
        yield changed


def _constant(node: ast.Constant) -> Iterator[ast.AST]:
    if isinstance(node.value, bool):
        yield ast.Constant(not node.value)
    elif isinstance(node.value, int | float):
        yield ast.Constant(node.value + 1)


def _returned(node: ast.Return) -> Iterator[ast.AST]:
    if node.value is not None and not _is_none(node.value):
        yield ast.Return(ast.Constant(None))


def _unfiltered(node: ast.comprehension) -> Iterator[ast.AST]:
    return _one_less(node, "ifs", least=0)


def _one_less(node: Node, field: str, least: int) -> Iterator[Node]:
    parts = getattr(node, field)
    for at in range(len(parts)) if len(parts) > least else ():
        changed = deepcopy(node)
        del getattr(changed, field)[at]
        yield changed


def _moved(node: ast.Call) -> Iterator[ast.AST]:
    """A threshold a little higher and a little lower: a tenth, in whole steps where it counts."""
    if not is_threshold(node):
        return
    value = ast.literal_eval(node.args[0])
    step = abs(value) / 10
    if isinstance(value, int) or abs(value) >= _LARGE:
        step = max(1, step)
    for other in (value + step, value - step):
        changed = deepcopy(node)
        changed.args[0] = ast.Constant(round(other, 6))
        yield changed


def _called(node: ast.Call) -> Iterator[ast.AST]:
    yield from _without_marks(node)
    yield from _moved(node)


def _without_marks(node: ast.Call) -> Iterator[ast.AST]:
    """A mark such as ``adult_figures=True`` left out."""
    for at, keyword in enumerate(node.keywords):
        if (
            not checks_code(keyword)
            and isinstance(keyword.value, ast.Constant)
            and isinstance(keyword.value.value, bool)
        ):
            changed = deepcopy(node)
            del changed.keywords[at]
            yield changed


def _is_none(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and node.value is None


def _is_text(node: ast.expr) -> bool:
    return isinstance(node, ast.JoinedStr) or (
        isinstance(node, ast.Constant) and isinstance(node.value, str)
    )


_CHANGES: Final[dict[type[ast.AST], Callable[..., Iterator[ast.AST]]]] = {
    ast.Compare: _compare,
    ast.BinOp: _compute,
    ast.BoolOp: _both_or_either,
    ast.UnaryOp: _not,
    ast.If: _turned_round,
    ast.IfExp: _turned_round,
    ast.Constant: _constant,
    ast.Return: _returned,
    ast.comprehension: _unfiltered,
    ast.Call: _called,
}
