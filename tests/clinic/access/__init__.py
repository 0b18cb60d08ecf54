"""Who may open which page: one file an app, each with ``ROWS``.

A row maps a URL's name to what it takes: a right, ``SIGNED_IN`` or ``PUBLIC``; and, where the
address names a record, a function that makes one and returns the address's parts.
"""

import importlib
import pkgutil
from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from typing import Any

from clinic.accounts.permissions import Right


class Open(Enum):
    """What is not guarded by a right."""

    PUBLIC = "public"
    SIGNED_IN = "signed in"


def nothing() -> dict[str, Any]:
    """An address without parts."""
    return {}


@dataclass(frozen=True)
class Row:
    """``takes`` what to open; ``parts`` makes the record and returns the address's parts."""

    takes: Right | Open
    parts: Callable[[], dict[str, Any]] = nothing


def table() -> dict[str, Row]:
    """The rows of every app's file in this folder; a name may appear once."""
    rows: dict[str, Row] = {}
    for module in pkgutil.iter_modules(__path__):
        found = importlib.import_module(f"{__name__}.{module.name}").ROWS
        assert not rows.keys() & found.keys(), f"{module.name} repeats a row"
        rows |= found
    return rows
