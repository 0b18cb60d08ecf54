"""Skin is called broken only where it is."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from planning.consistency.said import Fault, Part, Said

_BROKEN: Final = re.compile(r"\b(?:broken|open|torn) skin\b|\bskin is (?:broken|open|torn)\b", re.I)


def broken_of_whole_skin(said: Said) -> Iterator[Fault]:
    """Closed blisters, redness and a mark that stays are whole skin."""
    if said.situation.facts.open_skin:
        return
    for line in said.of(Part.ADVICE, Part.STEP, Part.NOTICE, Part.SUPPLY):
        if any(map(_BROKEN.search, line.texts)):
            yield Fault("whole_skin", line, "no open skin is recorded")
