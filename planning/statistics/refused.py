"""What no figure is made from: a number that is none, endless or less than nothing."""

from __future__ import annotations

from math import isfinite


class NumberRefusedError(ValueError):
    """NaN, infinite or negative where a count or a time was asked for."""


def whole_count(count: float) -> int:
    """``count`` as a whole number from 0 on, else refused by name.

    >>> whole_count(3)
    3
    """
    if not isfinite(count) or count < 0 or count != int(count):
        raise NumberRefusedError("A count is a whole number from 0 on.")
    return int(count)


def time_watched(days: float) -> float:
    """``days`` as a time from 0 on, else refused by name.

    >>> time_watched(30.5)
    30.5
    """
    if not isfinite(days) or days < 0:
        raise NumberRefusedError("Nothing is watched for less than no time, nor for ever.")
    return float(days)
