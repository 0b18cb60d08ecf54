"""Stage 8: supplies until the next visit, and per month against the usual maximum.

Maxima: US Medicare coverage rule L33828, read through two reproductions. A code without a stated
maximum has None, never 0. What a code means was read for some and is from memory for the others.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from planning.evidence.sources import MEMORY
from planning.evidence.thresholds import CLOSED_A_DAY, RESERVE
from planning.facts.change_interval import ChangeInterval
from planning.facts.derive import Facts
from planning.geometry.ring import fit_ring
from planning.instructions.monthly_maximum import against_maximum, monthly
from planning.results.plan import Quantity
from planning.supplies.catalogue import CONVEX
from planning.supplies.system_choice import SystemChoice


@dataclass(frozen=True, slots=True)
class Line:
    """How a supply is counted. ``maximum`` per month; ``measured`` False: used as needed (ounces).

    ``meaning``: who says that the supply is ordered under ``code``; ``doubt`` what the biller is
    asked, for the list.
    """

    text: str
    unit: str
    code: str | None = None
    maximum: float | None = None
    measured: bool = True
    meaning: str = MEMORY
    doubt: str | None = None

    @property
    def sources(self) -> tuple[str, ...]:
        """Of the code and of its maximum."""
        figure = "lcd/no_figure" if self.maximum is None else "lcd/maxima"
        return (self.meaning, figure)


#: A page was read for what is ordered under the code.
_READ: Final = "lcd/meaning"
_ASK: Final = "(from memory, unverified): ask the biller"
_RING: Final = f"often billed under the code of a solid barrier instead {_ASK}"
_BY_SIZE: Final = f"A4409 up to 4 by 4 inches, A4410 larger {_ASK}"

#: By supply, or by kind of barrier and pouch. Six-month maxima are divided by six.
LINES: Final[dict[str, Line]] = {
    "ring": Line("Mouldable ring", "each", "A4404", 10, meaning=_READ, doubt=_RING),
    "half_ring": Line(
        "Mouldable ring to halve (counted in whole rings)",
        "each",
        "A4404",
        10,
        meaning=_READ,
        doubt=_RING,
    ),
    "strip": Line("Mouldable strip", "each"),
    "paste": Line("Alcohol-free paste", "oz", "A4405 or A4406", 4, measured=False, meaning=_READ),
    "powder": Line("Skin powder", "oz", "A4371", 10 / 6, measured=False, meaning=_READ),
    "antifungal_powder": Line("Antifungal powder, by prescription", "pack", measured=False),
    "protectant": Line("Protectant wipe, alcohol-free", "each", "A5120", 25, meaning=_READ),
    "adhesive_remover": Line("Adhesive remover wipe", "each", "A4456", meaning=_READ),
    "absorbent_dressing": Line("Absorbent filler", "each"),
    "belt": Line("Ostomy belt", "each", "A4367", 1, meaning=_READ),
    "support_garment": Line("Support garment", "each", "A4396"),
    "night_bag": Line("Bedside drainage bag", "each", "A4357", 2),
    "thickener": Line("Thickener sachet", "each", "A4422"),
}
#: No one publishes how many come in a pack; sizes differ by supplier.
_PACKS: Final = "Order whole packs: how many a pack holds differs and is not known here."
_BY_FEEL: Final = "Used as needed: how long a pack lasts is not known here; order whole packs."
#: Used again: one lasts however often the barrier is changed.
REUSED: Final = frozenset({"belt", "support_garment", "night_bag"})

#: One-piece pouch with its barrier: (pouch, convex).
_ONE_PIECE: Final = {
    ("closed", False): Line("One-piece closed pouch, flat", "each", "A4416", 60),
    ("closed", True): Line("One-piece closed pouch, convex", "each", "A4417", 60),
    ("tap", False): Line("One-piece urinary pouch, flat", "each", "A4431", 20),
    ("tap", True): Line("One-piece urinary pouch, convex", "each", "A4429", 20),
    ("drainable", False): Line("One-piece drainable pouch, flat", "each", "A4424", 20),
    ("drainable_large", False): Line("One-piece large drainable pouch, flat", "each", "A4424", 20),
    ("drainable", True): Line("One-piece drainable pouch, convex", "each"),
}
_EXTENDED: Final = {
    False: Line(
        "One-piece drainable pouch, extended-wear, flat", "each", "A5056", 40, meaning=_READ
    ),
    True: Line(
        "One-piece drainable pouch, extended-wear, convex", "each", "A5057", 40, meaning=_READ
    ),
}
_BARRIERS: Final = {
    "convex": Line("Convex barrier", "each"),
    "extended": Line("Extended-wear barrier, flat", "each", "A4409 or A4410", doubt=_BY_SIZE),
    "flat": Line("Flat barrier", "each", "A4414", 20),
}
_POUCH_ALONE: Final = {
    "closed": Line("Two-piece closed pouch", "each", "A4419", 60),
    "tap": Line("Two-piece urinary pouch", "each", "A4432", 20),
    "drainable": Line("Two-piece drainable pouch", "each", "A4425", 20),
    "drainable_large": Line("Two-piece drainable pouch, large", "each", "A4425", 20),
    "high_output": Line("Two-piece high-output pouch", "each", "A4412"),
}


def all_lines() -> dict[str, tuple[Line, ...]]:
    """Every line that has a code, by code."""
    tables = (LINES, _ONE_PIECE, _EXTENDED, _POUCH_ALONE, _BARRIERS)
    lines = [line for table in tables for line in table.values() if line.code]
    return {
        code: tuple(line for line in lines if line.code == code)
        for code in sorted({line.code for line in lines if line.code})
    }


def quantities(chosen: SystemChoice, until_days: int) -> tuple[Quantity, ...]:
    """One line for each thing to order; ``until_days`` to the next visit."""
    wear = chosen.wear
    out = [_barrier(chosen, wear, until_days)] if chosen.barrier else []
    pouch = _pouch_line(chosen)
    if pouch is not None:
        out.append(_count("pouch", pouch, pouches_a_change(chosen), wear, until_days))
    for key in chosen.keys:
        if key in LINES:
            per_change = _per_change(key, chosen)
            out.append(_count(key, LINES[key], per_change, wear, until_days))
    return against_maximum(tuple(out), wear)


def _barrier(chosen: SystemChoice, wear: ChangeInterval, until_days: int) -> Quantity:
    line = _barrier_line(chosen)
    per_change = (
        pouches_a_change(chosen) if "closed" in chosen.supplies and _one_piece(chosen) else 1.0
    )
    return _count("barrier", line, per_change, wear, until_days)


def _one_piece(chosen: SystemChoice) -> bool:
    return "one_piece" in chosen.supplies


def _pouch(chosen: SystemChoice) -> str:
    return next((key for key in _POUCH_ALONE if key in chosen.supplies), "")


def _barrier_line(chosen: SystemChoice) -> Line:
    convex = bool(chosen.supplies & CONVEX)
    if not _one_piece(chosen):
        extended = "extended_wear" in chosen.supplies
        return _BARRIERS["convex" if convex else "extended" if extended else "flat"]
    pouch = _pouch(chosen)
    if pouch == "drainable" and "extended_wear" in chosen.supplies:
        return _EXTENDED[convex]
    profile = "convex" if convex else "flat"
    return _ONE_PIECE.get((pouch, convex), Line(f"One-piece system, {profile}", "each"))


def _pouch_line(chosen: SystemChoice) -> Line | None:
    pouch = _pouch(chosen)
    return None if _one_piece(chosen) or not pouch else _POUCH_ALONE[pouch]


def pouches_a_change(chosen: SystemChoice) -> float:
    """Pouches used for one barrier: closed ones go by the day."""
    if "closed" not in chosen.supplies:
        return 1.0
    return closed_pouches(chosen.wear.expected)


def closed_pouches(days: float) -> float:
    """Closed pouches while one barrier stays ``days``."""
    return CLOSED_A_DAY.value * max(1.0, days)


def _per_change(key: str, chosen: SystemChoice) -> float:
    facts: Facts = chosen.situation.facts
    if key == "ring" and facts.outline is not None:
        return float(fit_ring(facts.outline, facts.findings.measurement.widest_mm).pieces)
    if key == "half_ring":
        return (chosen.sizes.half_ring_layers or 1) / 2
    return 3.0 if key == "protectant" and "powder" in chosen.supplies else 1.0


def _count(
    key: str, line: Line, per_change: float, wear: ChangeInterval, until_days: int
) -> Quantity:
    """Reused things once; things used as needed not at all; the rest by the changes to come."""
    month = until = at_most = None
    if key in REUSED:
        month = until = at_most = math.ceil(line.maximum or 1)
    elif line.measured:
        month = monthly(per_change, wear.expected)
        until = math.ceil(changes_until(until_days, wear.expected) * per_change)
        if wear.low:
            at_most = math.ceil(changes_until(until_days, wear.low) * per_change)
    return Quantity(
        supply_key=key,
        text=line.text,
        per_change=per_change,
        unit=line.unit,
        until_next_visit=until,
        per_month=month,
        code=line.code,
        usual_monthly_maximum=line.maximum,
        until_at_most=at_most,
        code_note=line.doubt,
        note=None if key in REUSED else _PACKS if line.measured else _BY_FEEL,
    )


def changes_until(until_days: int, wear_days: float) -> int:
    """Changes until the next visit, and the reserve."""
    return math.ceil(until_days / wear_days) + int(RESERVE.value)
