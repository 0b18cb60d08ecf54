"""JSON schema (draft 2020-12) of findings and history, generated from their types."""

from __future__ import annotations

import types
from dataclasses import MISSING, fields, is_dataclass
from enum import Enum
from typing import Any, Final, Union, get_args, get_origin, get_type_hints

from planning.inputs.clock import ClockHours
from planning.inputs.findings import Findings, History

Schema = dict[str, Any]

_PLAIN: Final = {float: "number", int: "integer", bool: "boolean", str: "string"}
_HOURS: Final[Schema] = {
    "type": "array",
    "items": {"type": "integer", "minimum": 1, "maximum": 12},
    "uniqueItems": True,
}


def findings_schema() -> Schema:
    """Schema of a findings file; what may be left out is then not recorded."""
    return _root(Findings)


def history_schema() -> Schema:
    """Schema of a history."""
    return _root(History)


def _root(kind: type) -> Schema:
    definitions: dict[str, Schema] = {}
    reference = _schema(kind, definitions)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": kind.__name__,
        **reference,
        "$defs": dict(sorted(definitions.items())),
    }


def _schema(kind: Any, definitions: dict[str, Schema]) -> Schema:
    origin = get_origin(kind)
    if origin in (Union, types.UnionType):
        (inner,) = (a for a in get_args(kind) if a is not type(None))
        return {"anyOf": [_schema(inner, definitions), {"type": "null"}]}
    if origin in (tuple, frozenset):
        return {"type": "array", "items": _schema(get_args(kind)[0], definitions)}
    if kind is ClockHours:
        return _HOURS
    if is_dataclass(kind):
        return _record(kind, definitions)
    if issubclass(kind, Enum):
        return {"enum": [member.value for member in kind]}
    return {"type": _PLAIN[kind]}


def _record(kind: Any, definitions: dict[str, Schema]) -> Schema:
    name = kind.__name__
    if name not in definitions:
        definitions[name] = {}
        hints = get_type_hints(kind)
        definitions[name] = {
            "type": "object",
            "description": (kind.__doc__ or "").strip().splitlines()[0],
            "properties": {f.name: _schema(hints[f.name], definitions) for f in fields(kind)},
            "required": [
                f.name
                for f in fields(kind)
                if f.default is MISSING and f.default_factory is MISSING
            ],
            "additionalProperties": False,
        }
    return {"$ref": f"#/$defs/{name}"}
