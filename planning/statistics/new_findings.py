"""How often something new is found: new findings over the time in which they could have been."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from planning.inputs.usable_numbers import check_numbers
from planning.statistics.rates import garwood
from planning.statistics.too_few import TooFew

#: Days of a month, a twelfth of the year of 365.25 days.
MONTH: Final = 365.25 / 12
_PER: Final = 100


@dataclass(frozen=True, slots=True)
class Incidence:
    """``new`` in ``months`` at risk, as new ones in 100 such months; ``low``/``high`` exact."""

    new: int
    months: float
    per_hundred: float
    low: float
    high: float


def months_of(days: float) -> float:
    """Days as months at risk.

    >>> months_of(365.25)
    12.0
    """
    check_numbers(days=days, low=0)
    return days / MONTH


def new_per_hundred_months(
    new: int, days: float, *, confidence: float = 0.95
) -> Incidence | TooFew:
    """``new`` findings in ``days`` at risk, all stomas together; too few where no day was at risk.

    The interval is Garwood's (Biometrika 1936), two-sided also where nothing was found.
    """
    check_numbers(new=new, low=0, whole=True)
    months = months_of(days)
    if not months:
        return TooFew(0, 1, "days at risk")
    low, high = (limit / months * _PER for limit in garwood(new, confidence))
    return Incidence(new, months, new / months * _PER, low, high)
