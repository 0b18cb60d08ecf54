"""Circular statistics of amounts per hour (Zar, Biostatistical Analysis, 5th ed., ch. 26-27).

Amounts lie at the middle of the twelve sectors; angles are degrees clockwise from 12 o'clock.
``planning.inputs.clock`` answers the same for a plain set of hours.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Mapping
from dataclasses import dataclass

from planning.inputs.clock import GROUPING_CORRECTION, degrees
from planning.inputs.usable_numbers import check_numbers

_NO_DIRECTION = 1e-9


@dataclass(frozen=True, slots=True)
class Direction:
    """``mean_degrees`` None where there is no direction; ``length`` 0 (even) to 1 (one sector).

    ``corrected`` is the length corrected for grouping into twelve sectors, held at 1.
    """

    mean_degrees: float | None
    length: float
    corrected: float


def direction(amounts: Mapping[int, float], *, fold: int = 1) -> Direction:
    """Mean direction of ``{hour: amount}``; amounts at or above 0.

    ``fold=2`` doubles the angles, which finds an axis such as 3 and 9 o'clock that has no single
    direction; the mean is then one end of the axis, and the length is not corrected.
    """
    check_numbers(amounts=amounts, low=0, may_be_empty=True)
    check_numbers(hours=tuple(amounts), low=1, high=12, may_be_empty=True)
    check_numbers(fold=fold, low=1)
    total = sum(amounts.values())
    if total <= 0:
        return Direction(None, 0.0, 0.0)
    turned = (a * cmath.rect(1, math.radians(fold * degrees(h))) for h, a in amounts.items())
    resultant = sum(turned, 0j) / total
    length = abs(resultant)
    if length < _NO_DIRECTION:
        return Direction(None, 0.0, 0.0)
    mean = math.degrees(cmath.phase(resultant)) % 360 / fold
    correction = GROUPING_CORRECTION if fold == 1 else 1.0
    return Direction(mean, length, min(1.0, length * correction))
