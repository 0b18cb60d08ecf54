"""Log lines that say what failed and where, never on whose record.

The message of an exception may quote what was typed, and a database's quotes the whole row. So
an exception is written as its type, its place in the code, and for a database error the code
and the rule that refused (a name of ours, such as "stoma_closed_after_surgery").
"""

import logging
import traceback
from copy import copy
from types import TracebackType
from typing import Any

Raised = tuple[type[BaseException], BaseException, TracebackType | None] | tuple[None, None, None]


class BareFormatter(logging.Formatter):
    """Formats as usual, exceptions without their messages."""

    def format(self, record: logging.LogRecord) -> str:
        bare = copy(record)
        bare.exc_text = None  # another handler may have left the full text here
        bare.msg = _named(record.msg)
        if isinstance(record.args, tuple):
            bare.args = tuple(_named(value) for value in record.args)
        elif record.args:
            bare.args = {name: _named(value) for name, value in record.args.items()}
        return super().format(bare)

    def formatException(self, ei: Raised) -> str:  # noqa: N802  (the library's name)
        return "\n".join(_chain(ei[1])) if ei[1] else ""


def _named(value: Any) -> Any:
    return _words(value) if isinstance(value, BaseException) else value


def _chain(error: BaseException) -> list[str]:
    """Earliest cause first, as Python itself shows it."""
    earlier = error.__cause__ or (None if error.__suppress_context__ else error.__context__)
    before = [*_chain(earlier), "which led to:"] if earlier else []
    frames = "".join(traceback.format_tb(error.__traceback__)).rstrip()
    return [*before, *([frames] if frames else []), _words(error)]


def _words(error: BaseException) -> str:
    kind = type(error)
    rule = getattr(getattr(error, "diag", None), "constraint_name", None)
    facts = [fact for fact in (getattr(error, "sqlstate", None), rule) if fact]
    return f"{kind.__module__}.{kind.__qualname__}" + (f" ({', '.join(facts)})" if facts else "")
