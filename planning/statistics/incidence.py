"""What a whole clinic counts, and by which limits: the same as a single patient's plan.

Rows are counted where they are kept; the limits come from here, so that a clinic's count and a
patient's plan never mean two things by one word.
"""

from __future__ import annotations

from planning.evidence.citation import cite
from planning.evidence.thresholds import RETRACTED_AT, WEAR_COMPARED, WEAR_TYPING_ERROR, Threshold
from planning.geometry.burden import DAMAGE
from planning.statistics.rates import Share, proportion
from planning.statistics.too_few import TooFew


def retracted_at() -> Threshold:
    """Protrusion at or below which a stoma counts as retracted, mm (below the skin: negative)."""
    return RETRACTED_AT


def wear_compared() -> Threshold:
    """Days after which the share of barriers still holding is given."""
    return WEAR_COMPARED


def wear_typing_error() -> Threshold:
    """Days beyond which a barrier's time looks like a typing error and is left out."""
    return WEAR_TYPING_ERROR


def source_of(figure: Threshold) -> str:
    """Where a limit comes from."""
    return cite((figure.source,))


def damaged_kinds() -> frozenset[str]:
    """Kinds of skin finding that are damage; veins, lumps and openings are not."""
    return frozenset(str(kind.value) for kind in DAMAGE)


def per_hundred(k: int, n: int) -> Share | TooFew:
    """``k`` of ``n`` stomas as a number out of 100, with the exact interval of ``proportion``."""
    share = proportion(k, n)
    if isinstance(share, TooFew):
        return share
    return Share(share.value * 100, share.low * 100, share.high * 100)
