"""One line of the list of rules, and rules that are functions rather than rows of a table."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Rule:
    """``group`` a heading; ``effect`` what the rule does, in words; ``tested_in`` a test file.

    ``decided_in`` the function that is the rule, where it is no row of a table.
    """

    group: str
    key: str
    title: str
    effect: str
    sources: tuple[str, ...]
    tested_in: str
    decided_in: str = ""


@dataclass(frozen=True, slots=True)
class StatedRule:
    """A rule that is a function: ``by`` decides, ``effect`` says how in a nurse's words.

    ``tested_in`` the test itself, below ``tests/planning``.
    """

    key: str
    title: str
    effect: str
    by: Callable[..., object]
    sources: tuple[str, ...]
    tested_in: str

    def rule(self, group: str) -> Rule:
        """The line of the list."""
        place = f"{self.by.__module__}.{self.by.__qualname__}"
        test = f"tests/planning/{self.tested_in}"
        return Rule(group, self.key, self.title, self.effect, self.sources, test, place)


def docstring_of(function: Callable[..., object]) -> str:
    """The docstring of ``function`` on one line."""
    return " ".join((inspect.getdoc(function) or "").split())
