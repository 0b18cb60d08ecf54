"""How fast a value changes over unequally spaced visits, hardly moved by one odd value."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from planning.inputs.usable_numbers import check_numbers
from planning.statistics.too_few import TooFew

#: With four values no order is rarer than 2 in 4! (8 %): no 95 % interval exists below five.
LEAST_VALUES: Final = 5


@dataclass(frozen=True, slots=True)
class Slope:
    """The median of all slopes between two visits, units a day; ``n`` values went in."""

    per_day: float
    low: float
    high: float
    n: int


def theil_sen(
    days: Sequence[float], values: Sequence[float], *, confidence: float = 0.95
) -> Slope | TooFew:
    """The slope of ``values`` over ``days`` (real days, not visit numbers) with its interval.

    Sources: Theil 1950; interval of Sen, J Am Stat Assoc 1968. Two values of one day give no slope
    between them. Too few below five different days. Raises ``ValueError`` for unequal lengths.
    """
    check_numbers(days=days, values=values, may_be_empty=True)
    check_numbers(confidence=confidence, above=0, below=1)
    if len(days) != len(values):
        raise ValueError(f"{len(values)} values on {len(days)} days.")
    different = len(set(days))
    if different < LEAST_VALUES:
        return TooFew(different, LEAST_VALUES, "days with a value")
    from scipy.stats import theilslopes  # slow to load

    found = theilslopes(values, days, alpha=confidence)
    return Slope(float(found.slope), float(found.low_slope), float(found.high_slope), len(values))
