"""How deep the dome must be, from the height of the stoma. Depth in mm above the plane.

A dome of depth d is taken to press the skin round the stoma down by d, so that the stoma is d
higher over the barrier (design value: no source gives the lift of a mm of convexity). Above the
skin the stoma is raised towards 10 mm, under which convexity is advised for a leaking spout (common
practice) and which is the middle of a colostomy's usual 5 to 15 mm, but by no more than a shallow
dome: the least depth that seals is tried first. Below the skin the dome must also reach down to the
edge, the whole of the missing height. Whether one is wanted at all is judged by the kind of stoma
(``planning.facts.height.dome_height``).
"""

from __future__ import annotations

from enum import StrEnum

from planning.evidence.thresholds import DEEP_FROM, LEAST_LIFT, SHALLOW_TO, SPOUT_LOW
from planning.inputs.findings import LumenPosition
from planning.inputs.usable_numbers import check_numbers


class Depth(StrEnum):
    """Bands of convexity (McNichol 2021; limits between whole millimetres are a design value)."""

    SHALLOW = "shallow"
    MODERATE = "moderate"
    DEEP = "deep"


def depth_class(depth_mm: float) -> Depth:
    """Shallow up to and including 3 mm, deep from 8 mm, moderate between."""
    check_numbers(depth_mm=depth_mm, low=0)
    if depth_mm <= SHALLOW_TO.value:
        return Depth.SHALLOW
    return Depth.DEEP if depth_mm >= DEEP_FROM.value else Depth.MODERATE


def outlet_height(protrusion_mm: float, lumen: LumenPosition | None) -> float:
    """Height of the lowest edge of the outlet over the skin, mm: a lumen at skin level pours
    out at the skin however high the rest is."""
    check_numbers(protrusion_mm=protrusion_mm)
    if lumen is LumenPosition.SKIN_LEVEL:
        return min(protrusion_mm, 0.0)
    return protrusion_mm


def lift_wanted(outlet_mm: float) -> float:
    """Depth of convexity wanted for an outlet ``outlet_mm`` over the skin; 0 from 10 mm upwards."""
    check_numbers(outlet_mm=outlet_mm)
    missing = SPOUT_LOW.value - outlet_mm
    if missing <= 0:
        return 0.0
    above = min(max(missing, LEAST_LIFT.value), SHALLOW_TO.value)
    return above - min(outlet_mm, 0.0)
