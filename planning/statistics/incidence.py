"""What a whole clinic counts as a complication: the figures its rows are compared with.

Counting is done where the rows are; the limits come from here, so that a clinic's count and a
patient's plan never mean two things by one word.
"""

from __future__ import annotations

from typing import Final

from planning.geometry.burden import DAMAGE
from planning.sources import cite
from planning.statistics.rates import Share, proportion
from planning.statistics.too_few import TooFew
from planning.thresholds import RETRACTED_AT

#: Days of wear whose survival a clinic compares barriers by.
WEAR_GOAL_DAYS: Final = 3


def retracted_at_mm() -> float:
    """Protrusion at or below which a stoma counts as retracted, mm (below the skin: negative)."""
    return RETRACTED_AT.value


def retraction_source() -> str:
    """On whose word ``retracted_at_mm`` stands."""
    return cite((RETRACTED_AT.source,))


def damaged_kinds() -> frozenset[str]:
    """Kinds of skin finding that are damage; veins, lumps and openings are not."""
    return frozenset(str(kind.value) for kind in DAMAGE)


def per_hundred(k: int, n: int) -> Share | TooFew:
    """``k`` of ``n`` stomas, as a number out of 100 with its exact interval."""
    share = proportion(k, n)
    if isinstance(share, TooFew):
        return share
    return Share(share.value * 100, share.low * 100, share.high * 100)
