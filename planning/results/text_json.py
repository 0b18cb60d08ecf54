"""A patient's text to plain data and back: a list of messages, each by its id.

A plan signed before plans held messages has finished English there; it is read as it is.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from planning.results.message import Day, Days, Length, Message, Part, Text


def text_to_json(text: Text) -> list[Any] | str:
    """Plain data of ``text``."""
    return text.stored or [_message(one) for one in text.messages]


def text_from_json(data: object) -> Text:
    """The text in ``data``. Raises ``ValueError`` where it is none."""
    if isinstance(data, str):
        return Text(stored=data)
    if not isinstance(data, list | tuple):
        raise ValueError(f"Expected a list of messages, not {data!r}.")
    return Text(tuple(_read(one) for one in data))


def _message(message: Message) -> dict[str, Any]:
    told: dict[str, Any] = {"id": message.id}
    if message.context:
        told["context"] = message.context
    if message.parts:
        told["parts"] = {name: _part(part) for name, part in message.parts}
    return told


def _part(part: Part) -> object:
    match part:
        case Message():
            return _message(part)
        case Day(number):
            return {"day": number}
        case Days(number):
            return {"days": number}
        case Length(mm, by_mm):
            return {"mm": mm} if by_mm is None else {"mm": mm, "by_mm": by_mm}
    return part


def _read(data: object) -> Message:
    match data:
        case {"id": str(id_), **rest} if set(rest) <= {"context", "parts"}:
            context, parts = rest.get("context", ""), rest.get("parts", {})
            if isinstance(context, str) and isinstance(parts, Mapping):
                named = ((str(name), _read_part(part)) for name, part in parts.items())
                return Message(id_, context, tuple(named))
    raise ValueError(f"Expected a message, not {data!r}.")


def _read_part(data: object) -> Part:
    match data:
        case bool():
            pass
        case str() | int():
            return data
        case {"day": int(number), **rest} if not rest:
            return Day(number)
        case {"days": int(number), **rest} if not rest:
            return Days(number)
        case {"mm": float() | int() as mm, **rest} if set(rest) <= {"by_mm"}:
            by_mm = rest.get("by_mm")
            if by_mm is None or isinstance(by_mm, float | int):
                return Length(mm, by_mm)
        case {"id": str()}:
            return _read(data)
    raise ValueError(f"Expected a part of a message, not {data!r}.")
