"""JSON that somebody else wrote: read within limits, or refused with words."""

from __future__ import annotations

import json
from typing import Any, Final

#: Characters of a whole text; levels of one thing in another; digits of a whole number. Design
#: values: far more than any findings or any marks on a photo need.
MOST_CHARACTERS: Final = 1_000_000
DEEPEST: Final = 40
MOST_DIGITS: Final = 15


class BadJSONError(ValueError):
    """What is wrong with it, to be shown."""


def read_json(text: str) -> Any:
    """What ``text`` says; raises ``BadJSONError``. A name given twice is refused: one of the
    two would be lost."""
    if len(text) > MOST_CHARACTERS:
        raise BadJSONError(f"longer than {MOST_CHARACTERS} characters")
    try:
        found = json.loads(text, object_pairs_hook=_fields, parse_int=_whole)
    except json.JSONDecodeError as error:
        raise BadJSONError(str(error)) from error
    except RecursionError as error:
        raise BadJSONError(f"nested deeper than {DEEPEST} levels") from error
    _check(found)
    return found


def _fields(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise BadJSONError(f"“{_readable(twice)[:60]}” is given twice")
    return found


def _whole(digits: str) -> int:
    if len(digits.lstrip("-")) > MOST_DIGITS:
        raise BadJSONError(f"a whole number has more than {MOST_DIGITS} digits")
    return int(digits)


def _check(found: Any) -> None:
    """Depth, and characters that no text may have. Without recursion, as depth is the question."""
    left = [(found, 1)]
    while left:
        value, level = left.pop()
        if level > DEEPEST:
            raise BadJSONError(f"nested deeper than {DEEPEST} levels")
        if isinstance(value, dict):
            left += [(one, level + 1) for pair in value.items() for one in pair]
        elif isinstance(value, list):
            left += [(one, level + 1) for one in value]
        elif isinstance(value, str) and value != _readable(value):
            raise BadJSONError("a text has a character that cannot be stored")


def _readable(text: str) -> str:
    """Without NUL and without halves of a character, which neither a terminal nor a table takes."""
    return text.replace("\0", "").encode("utf-8", "ignore").decode()
