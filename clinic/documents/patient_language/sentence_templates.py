"""Sentences with parts in them, found again in what was said: the way back from a plan's English.

A plan is stored with the sentences it said. Those that hold a figure or the name of a supply are
led back to the sentence of the catalogue and its parts; all others are in it as they are.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Final

#: What a named part may be in English.
PARTS: Final[Mapping[str, str]] = {"day": r"day \d+", "supply": r"[a-z][^.:]*"}
#: Sentences of the planner that are not the same every time.
TEMPLATES: Final = (
    "Change on {day} at the latest.",
    "Keep using: {supply}.",
    "Stop using: {supply}.",
)


@cache
def pattern(template: str) -> re.Pattern[str]:
    """What ``template`` may have been said as.

    >>> pattern("Keep using: {supply}.").fullmatch("Keep using: soft ring.")["supply"]
    'soft ring'
    """
    pieces = re.split(r"(\{\w+\})", template)
    return re.compile("".join(_piece(piece) for piece in pieces))


def _piece(piece: str) -> str:
    if not piece.startswith("{"):
        return re.escape(piece)
    name = piece[1:-1]
    return f"(?P<{name}>{PARTS[name]})"


def matches(said: str) -> Iterator[tuple[str, dict[str, str]]]:
    """Every template ``said`` can come from, with its parts. One at most, a test holds it to that.

    >>> list(matches("Change on day 3 at the latest."))
    [('Change on {day} at the latest.', {'day': 'day 3'})]
    >>> list(matches("Wash your hands."))
    []
    """
    for template in TEMPLATES:
        if found := pattern(template).fullmatch(said):
            yield template, found.groupdict()
