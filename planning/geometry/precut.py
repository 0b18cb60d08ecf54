"""Ready-cut round openings, in exact inches: rounded millimetres would open false holes."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from planning.evidence.thresholds import GAP_LEAST, GAP_MOST
from planning.inputs.usable_numbers import check_numbers

MM_PER_INCH: Final = Fraction(127, 5)

#: Common steps in inches (common practice, no source).
STEPS_INCH: Final = tuple(
    Fraction(sixteenths, 16) for sixteenths in (10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 32)
)

_TOLERANCE: Final = 1e-9


def pre_cut_for(stoma_mm: float) -> float | None:
    """Diameter (mm) of the smallest ready-cut opening with 1/16 to 1/8 inch a side round a
    stoma of ``stoma_mm``; None: only cut-to-fit serves."""
    check_numbers(stoma_mm=stoma_mm, low=0)
    least = stoma_mm + 2 * GAP_LEAST.value - _TOLERANCE
    most = stoma_mm + 2 * GAP_MOST.value + _TOLERANCE
    sizes = (float(step * MM_PER_INCH) for step in STEPS_INCH)
    size = next((s for s in sizes if s >= least), None)
    return size if size is not None and size <= most else None


def inches(size_mm: float) -> str:
    """A ready-cut size in words: 28.575 gives ``1 1/8 in``."""
    check_numbers(size_mm=size_mm, low=0)
    whole, part = divmod(Fraction(size_mm).limit_denominator(10**6) / MM_PER_INCH, 1)
    part = part.limit_denominator(16)
    return " ".join(filter(None, [str(whole) if whole else "", str(part) if part else ""])) + " in"
