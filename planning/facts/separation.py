"""How deep a mucocutaneous separation is, in classes of the nurse's own finding (design values).

0 line: under 2 mm. 1 shallow: up to 5 mm. 2 deep: up to 20 mm. 3 very deep: over 20 mm, half the
ring or more at over 5 mm, or all round. 4: base not to be seen, fascia or bowel seen, stool or
urine goes into it, or pus.
"""

from __future__ import annotations

from enum import IntEnum

from planning.evidence.thresholds import (
    EARLY_DAYS,
    SEPARATION_HALF,
    SEPARATION_LINE,
    SEPARATION_SHALLOW,
    SEPARATION_VERY_DEEP,
)
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Separation


class SeparationClass(IntEnum):
    """The higher, the deeper."""

    LINE = 0
    SHALLOW = 1
    DEEP = 2
    VERY_DEEP = 3
    OPEN = 4


def separation_class(
    gaps: tuple[Separation, ...] | None, days_since_surgery: int | None
) -> SeparationClass | None:
    """Of all gaps together, the deepest; None where there is none, or it was not looked for.

    A depth not recorded is very deep in the first 30 days, or on a day not known, else deep.
    """
    if not gaps:
        return None
    early = days_since_surgery is None or days_since_surgery <= EARLY_DAYS.value
    unknown = SeparationClass.VERY_DEEP if early else SeparationClass.DEEP
    worst = max(_of_one(gap, unknown) for gap in gaps)
    return max(worst, _round_the_ring(gaps))


def _of_one(gap: Separation, unknown: SeparationClass) -> SeparationClass:
    soiled = gap.contaminated or gap.effluent_under_skin or gap.fascia_seen
    if soiled or gap.base_visible is False:
        return SeparationClass.OPEN
    if gap.depth_mm is None:
        return unknown
    limits = (SEPARATION_LINE, SEPARATION_SHALLOW, SEPARATION_VERY_DEEP)
    if gap.depth_mm < limits[0].value:
        return SeparationClass.LINE
    if gap.depth_mm <= limits[1].value:
        return SeparationClass.SHALLOW
    return SeparationClass.DEEP if gap.depth_mm <= limits[2].value else SeparationClass.VERY_DEEP


def _round_the_ring(gaps: tuple[Separation, ...]) -> SeparationClass:
    """Half of it at more than a shallow depth, or all of it at any: a depth not recorded counts."""
    deep = [g for g in gaps if g.depth_mm is None or g.depth_mm > SEPARATION_SHALLOW.value]
    half = len(ClockHours.union(g.hours for g in deep)) >= SEPARATION_HALF.value
    whole = len(ClockHours.union(g.hours for g in gaps)) == 12
    return SeparationClass.VERY_DEEP if half or whole else SeparationClass.LINE
