"""Findings, history and plan to plain JSON-able data and back, unchanged.

Enumerations become their words, hours an ordered list, sets an ordered list, tuples a list, what
is said to the patient a list of messages.
Reading is strict: every unknown name, wrong type or unknown word is reported with its path.
"""

from __future__ import annotations

import types
from collections.abc import Callable, Mapping
from dataclasses import MISSING, fields, is_dataclass
from enum import Enum
from functools import cache
from typing import Any, Union, cast, get_args, get_origin, get_type_hints

from planning.inputs.clock import ClockHours
from planning.inputs.errors import FieldError, InvalidFindings
from planning.inputs.findings import Findings, History
from planning.results.message import Text
from planning.results.plan import Plan
from planning.results.text_json import text_from_json, text_to_json

Json = dict[str, Any]


def findings_to_dict(findings: Findings) -> Json:
    """Plain data of ``findings``."""
    return cast("Json", _dump(findings))


def findings_from_dict(data: Mapping[str, Any]) -> Findings:
    """The findings in ``data``; raises ``InvalidFindings`` listing every misfit by path."""
    return cast("Findings", _read(Findings, data))


def history_to_dict(history: History) -> Json:
    """Plain data of ``history``."""
    return cast("Json", _dump(history))


def history_from_dict(data: Mapping[str, Any]) -> History:
    """The history in ``data``; raises ``InvalidFindings`` listing every misfit by path."""
    return cast("History", _read(History, data))


def plan_to_dict(plan: Plan) -> Json:
    """Plain data of ``plan``."""
    return cast("Json", _dump(plan))


def plan_from_dict(data: Mapping[str, Any]) -> Plan:
    """The plan in ``data``; raises ``InvalidFindings`` listing every misfit by path."""
    return cast("Plan", _read(Plan, data))


# --- writing --------------------------------------------------------------------------------
def _dump(value: object) -> object:
    if isinstance(value, ClockHours):
        return list(value)
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, tuple):
        return [_dump(v) for v in value]
    if isinstance(value, frozenset):
        return sorted((_dump(v) for v in value), key=str)
    if isinstance(value, Text):
        return text_to_json(value)
    if is_dataclass(value):
        return {f.name: _dump(getattr(value, f.name)) for f in fields(value)}
    return value


# --- reading --------------------------------------------------------------------------------
class _Misfits(list[FieldError]):
    def add(self, path: str, message: str) -> None:
        self.append(FieldError(path, message))


def _read(kind: type, data: object) -> object:
    misfits = _Misfits()
    value = _load(kind, data, "", misfits)
    if misfits:
        raise InvalidFindings(tuple(misfits))
    return value


@cache
def _hints(kind: type) -> dict[str, Any]:
    return get_type_hints(kind)


def _load(kind: Any, data: object, path: str, misfits: _Misfits) -> object:
    """``data`` as ``kind``; on a misfit notes it and returns None."""
    origin = get_origin(kind)
    if origin in (Union, types.UnionType):
        if data is None:
            return None
        (inner,) = (a for a in get_args(kind) if a is not type(None))
        return _load(inner, data, path, misfits)
    if origin in (tuple, frozenset):
        return _load_many(kind, data, path, misfits)
    if kind is ClockHours:
        return _load_hours(data, path, misfits)
    if kind is Text:
        return _load_text(data, path, misfits)
    if is_dataclass(kind):
        return _load_record(cast("type", kind), data, path, misfits)
    if issubclass(kind, Enum):
        return _load_word(kind, data, path, misfits)
    return _load_plain(kind, data, path, misfits)


def _load_record(kind: type, data: object, path: str, misfits: _Misfits) -> object:
    if not isinstance(data, Mapping):
        misfits.add(path, f"Expected named fields, not {data!r}.")
        return None
    known = {f.name: f for f in fields(kind)}
    for name in data:
        if name not in known:
            misfits.add(_join(path, str(name)), "This field is not known.")
    before = len(misfits)
    values = {}
    for name, field in known.items():
        if name in data:
            values[name] = _load(_hints(kind)[name], data[name], _join(path, name), misfits)
        elif field.default is MISSING and field.default_factory is MISSING:
            misfits.add(_join(path, name), "This field is missing.")
    return kind(**values) if len(misfits) == before else None


def _load_many(kind: Any, data: object, path: str, misfits: _Misfits) -> object:
    if not isinstance(data, list | tuple):
        misfits.add(path, f"Expected a list, not {data!r}.")
        return None
    args = get_args(kind)
    fixed = get_origin(kind) is tuple and args[-1] is not Ellipsis
    if fixed and len(args) != len(data):
        misfits.add(path, f"Expected {len(args)} values, not {len(data)}.")
        return None
    inner = args if fixed else (args[0],) * len(data)
    values = [
        _load(k, v, f"{path}[{i}]", misfits)
        for i, (k, v) in enumerate(zip(inner, data, strict=True))
    ]
    make: Callable[[list[object]], object] = frozenset if get_origin(kind) is frozenset else tuple
    return make(values)


def _load_hours(data: object, path: str, misfits: _Misfits) -> object:
    if not isinstance(data, list | tuple):
        misfits.add(path, f"Expected a list of hours from 1 to 12, not {data!r}.")
        return None
    try:
        return ClockHours(frozenset(data))
    except (ValueError, TypeError):
        misfits.add(path, f"Clock hours are whole numbers from 1 to 12, not {data!r}.")
        return None


def _load_text(data: object, path: str, misfits: _Misfits) -> object:
    try:
        return text_from_json(data)
    except ValueError as wrong:
        misfits.add(path, str(wrong))
        return None


def _load_word(kind: type[Enum], data: object, path: str, misfits: _Misfits) -> object:
    try:
        return kind(data)
    except ValueError:
        words = ", ".join(str(m.value) for m in kind)
        misfits.add(path, f"{data!r} is not one of: {words}.")
        return None


def _load_plain(kind: type, data: object, path: str, misfits: _Misfits) -> object:
    if kind is float and type(data) in (int, float):
        return float(cast("float", data))
    if type(data) is kind:
        return data
    words = {float: "a number", int: "a whole number", bool: "true or false", str: "text"}
    misfits.add(path, f"Expected {words[kind]}, not {data!r}.")
    return None


def _join(path: str, name: str) -> str:
    return f"{path}.{name}" if path else name
