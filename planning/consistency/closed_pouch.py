"""A closed pouch is taken off, never emptied: it has no outlet."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from planning.consistency.said import Fault, Part, Said

_OPENS: Final = re.compile(
    r"\bempty(?:ing)? the pouch\b|\boutlet\b|\bwhere the pouch opens\b", re.IGNORECASE
)


def empties_a_closed_pouch(said: Said) -> Iterator[Fault]:
    """No line asks for what only a pouch with an outlet can do."""
    if "closed" not in said.chosen:
        return
    for line in said.of(Part.ADVICE, Part.STEP, Part.NOTICE, Part.SUPPLY):
        if any(map(_OPENS.search, line.texts)):
            yield Fault("closed_pouch", line, "the pouch is closed")
