"""How deep the dome must be, from how high the stoma stands. Depth in mm above the plane.

A dome of depth d presses the skin round the stoma down by up to d, so that the stoma stands d
higher over the barrier. Above the skin the stoma is raised towards 10 mm, below which any stoma
does worse (Cottam 2007), but by no more than a shallow dome: the least depth that seals is tried
first. Below the skin the dome must also reach down to the edge, the whole of the missing height.
"""

from __future__ import annotations

from enum import StrEnum

from planning.findings import LumenPosition
from planning.thresholds import ANY_TROUBLE, DEEP_FROM, SHALLOW_TO


class Depth(StrEnum):
    """Bands of convexity (McNichol 2021; limits between whole millimetres are a design value)."""

    SHALLOW = "shallow"
    MODERATE = "moderate"
    DEEP = "deep"


def depth_class(depth_mm: float) -> Depth:
    """Shallow up to and including 3 mm, deep from 8 mm, moderate between."""
    if depth_mm <= SHALLOW_TO.value:
        return Depth.SHALLOW
    return Depth.DEEP if depth_mm >= DEEP_FROM.value else Depth.MODERATE


def outlet_height(protrusion_mm: float, lumen: LumenPosition | None) -> float:
    """Height of the lowest edge of the outlet over the skin, mm: a lumen at skin level pours
    out at the skin however high the rest stands."""
    if lumen is LumenPosition.SKIN_LEVEL:
        return min(protrusion_mm, 0.0)
    return protrusion_mm


def lift_wanted(outlet_mm: float) -> float:
    """Depth of dome wanted for an outlet ``outlet_mm`` over the skin; 0 from 10 mm upwards."""
    if outlet_mm < 0:
        return SHALLOW_TO.value - outlet_mm
    return min(max(ANY_TROUBLE.value - outlet_mm, 0.0), SHALLOW_TO.value)
