"""While a stoma shrinks its hole is cut by a new template, never bigger on one's own."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from planning.consistency.said import Fault, Part, Said
from planning.facts.derive import still_shrinks

_BIGGER: Final = re.compile(
    r"\b(?:cut|make|leave)\b[^.]*\b(?:bigger|larger|wider)\b", re.IGNORECASE
)
#: A swelling that comes and goes, or a rim that is tight: acts that cost no time.
_AT_ONCE: Final = re.compile(r"\bif [^.,]*\b(?:swollen|tight)\b", re.IGNORECASE)


def cut_bigger_while_it_shrinks(said: Said) -> Iterator[Fault]:
    """A sentence for the patient that makes the hole bigger."""
    if not still_shrinks(said.situation.facts):
        return
    for line in said.of(Part.ADVICE, Part.DANGER, Part.STEP):
        for words in line.plain.split(". "):
            if _BIGGER.search(words) and not _AT_ONCE.search(words):
                yield Fault("bigger", line, "a shrinking stoma needs a new template")
