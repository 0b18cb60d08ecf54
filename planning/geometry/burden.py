"""Area of damaged skin beyond the stoma's edge, each spot counted once.

Every hour is a 30 degree sector; a finding fills it from ``inner_mm`` to ``outer_mm`` beyond the
edge, measured from the stoma's middle outwards.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import cache
from typing import Final

from planning.evidence.thresholds import BARRIER_ACROSS
from planning.geometry.outline import PER_HOUR, POINTS, Outline
from planning.inputs.clock import HOURS, hour_after
from planning.inputs.findings import SkinFinding, SkinKind

#: What counts as damage; veins, lumps and openings are findings but not damaged skin.
DAMAGE: Final = frozenset(SkinKind) - {
    SkinKind.DILATED_VEINS,
    SkinKind.HARD_LUMP,
    SkinKind.FISTULA,
}


def skin_burden(skin: tuple[SkinFinding, ...] | None, outline: Outline | None) -> float | None:
    """Damaged area, mm2. None where skin, size or an extent was not recorded; 0: none found."""
    if skin is None:
        return None
    damage = [f for f in skin if f.kind in DAMAGE]
    if not damage:
        return 0.0
    extents = [
        (f.hours, f.inner_mm, f.outer_mm)
        for f in damage
        if f.inner_mm is not None and f.outer_mm is not None
    ]
    if outline is None or len(extents) < len(damage):
        return None
    step = 2 * math.pi / POINTS
    bands = {
        hour: _each_once((inner, outer) for hours, inner, outer in extents if hour in hours)
        for hour in HOURS
    }
    # (edge + b)2 - (edge + a)2, summed over the bands, is edge * width + rest.
    width = {hour: sum(2 * (b - a) for a, b in found) for hour, found in bands.items()}
    rest = {hour: sum(b * b - a * a for a, b in found) for hour, found in bands.items()}
    total = 0.0
    for i, edge in enumerate(outline.radii):
        for hour, share in _hours_at(i):
            total += (edge * width[hour] + rest[hour]) * share
    return total * step / 2


def landing_zone(outline: Outline) -> float:
    """Skin under a barrier of 4 by 4 inches, taken as round, mm2 (design value)."""
    return max(0.0, math.pi * BARRIER_ACROSS.value**2 / 4 - outline.area_mm2)


@cache
def _hours_at(index: int) -> tuple[tuple[int, float], ...]:
    """The hour whose sector holds bearing ``index``; a border is shared between two hours."""
    hour, rest = divmod(index + PER_HOUR // 2, PER_HOUR)
    here = hour or 12
    return ((here, 1.0),) if rest else ((here, 0.5), (hour_after(here, -1), 0.5))


def _each_once(bands: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
    """Of each band the part beyond those that begin nearer; none left: a band of no width."""
    out: list[tuple[float, float]] = []
    reached = 0.0
    for start, end in sorted(bands):
        out.append((max(start, reached), max(end, reached)))
        reached = max(end, reached)
    return out
