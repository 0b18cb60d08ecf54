"""Needs that cannot both be met, settled by a stated order.

A barrier that keeps its shape (``firm_dome``, ``hold_fold``) and one that bends along
(``flexible_surface``) exclude one another. Harm goes before fit: beside a bulge or a prolapse, and
on veins, pyoderma or irradiated skin a stiff barrier can injure, a soft one at worst leaks. Where
nothing but an abdomen that curves outwards asks for bending, convexity or the open fold goes first:
a barrier that gives way there does not seal, and the curve is only followed less well.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.needs.fit import stiff_harms
from planning.ranked_facts import RankedFacts
from planning.results.plan import Need, Reason

STIFF: Final = ("firm_dome", "hold_fold")
BENDING: Final = "flexible_surface"

_BENDS_FIRST: Final = Reason(
    "It comes before a stiffer barrier: a stiff one can injure here, a soft one at worst leaks.",
    (DESIGN, PRACTICE),
)
_STIFF_FIRST: Final = Reason(
    "It comes before bending along the outward curve: a barrier that gives way does not seal here.",
    (DESIGN, PRACTICE),
)


def agreed(needs: tuple[Need, ...], situation: RankedFacts) -> tuple[Need, ...]:
    """``needs`` without those that the order above gives up, and why on those that it keeps."""
    keys = {need.key for need in needs}
    if BENDING not in keys or not keys & set(STIFF):
        return needs
    if stiff_harms(situation):
        kept, dropped, reason = {BENDING}, set(STIFF), _BENDS_FIRST
    else:
        kept, dropped, reason = set(STIFF), {BENDING}, _STIFF_FIRST
    return tuple(
        replace(need, because=(*need.because, reason)) if need.key in kept else need
        for need in needs
        if need.key not in dropped
    )
