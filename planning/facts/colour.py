"""The colours of the stoma: of the whole and of every part, each counted by itself."""

from __future__ import annotations

from typing import Final

from planning.facts.derive import Facts
from planning.inputs.clock import NOWHERE, ClockHours
from planning.inputs.findings import Colour

#: Less blood than there should be; black, brown or grey: none.
DUSKY: Final = (Colour.DUSKY, Colour.PURPLE)
DARK: Final = (*DUSKY, Colour.BLACK_BROWN_GREY)


def colours(facts: Facts) -> frozenset[Colour]:
    """Of the whole stoma and of every part whose colour differs."""
    m = facts.findings.measurement
    parts = {part.colour for part in m.colour_parts or ()}
    return frozenset(parts | ({m.colour} if m.colour is not None else set()))


def dark(facts: Facts) -> bool:
    """Dusky, purple or darker, anywhere on the stoma."""
    return bool(colours(facts) & set(DARK))


def at_hours(facts: Facts, *these: Colour) -> str:
    """`` at 3 to 5 o'clock``: where the parts with one of these colours lie; "" where no part is
    recorded."""
    parts = facts.findings.measurement.colour_parts or ()
    hours: ClockHours = ClockHours.union(part.hours for part in parts if part.colour in these)
    return "" if hours == NOWHERE else f" at {hours.words()}"
