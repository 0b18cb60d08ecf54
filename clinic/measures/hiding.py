"""Small numbers are hidden, so that nobody can be picked out of a figure of the clinic.

Counts of people, stomas, visits and referrals from 1 to 4 are not told, nor any rate that rests
on them (common practice, no source). What is hidden can also not be worked out from a total.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

#: The smallest count that is told (common practice, no source).
LEAST_TOLD: Final = 5
NOT_SHOWN: Final = "not shown"


def is_small(number: int) -> bool:
    """From 1 to 4."""
    return 0 < number < LEAST_TOLD


def count(number: int) -> str:
    """A count as it is told.

    >>> [count(n) for n in (0, 1, 4, 5)]
    ['0', 'fewer than 5', 'fewer than 5', '5']
    """
    return f"fewer than {LEAST_TOLD}" if is_small(number) else str(number)


def tells(whole: int, some: int) -> bool:
    """Whether a figure about ``some`` of ``whole`` may be told: enough in all, and not few.

    >>> tells(4, 0), tells(5, 0), tells(40, 4), tells(40, 5)
    (False, True, False, True)
    """
    return whole >= LEAST_TOLD and not is_small(some)


def parts(numbers: Sequence[int]) -> tuple[list[str], str]:
    """The parts of a total, and the total, as they are told.

    Beside a small part no other part is told but 0, for the total would give the small one away;
    and the total itself only while every small part may still be anything from 1 to 4.
    """
    small = [n for n in numbers if is_small(n)]
    large = [n for n in numbers if n >= LEAST_TOLD]
    if not small:
        return [str(n) for n in numbers], str(sum(numbers))
    told = [count(n) if n < LEAST_TOLD else NOT_SHOWN for n in numbers]
    return told, _total(sum(numbers), len(small), len(large))


def _total(total: int, small: int, large: int) -> str:
    if total < LEAST_TOLD:
        return count(total)
    most = LEAST_TOLD - 1
    # One small part at its most and the others at their least must fit, and the other way round.
    fits = total >= most + (small - 1) + LEAST_TOLD * large
    open_above = large > 0 or total <= 1 + most * (small - 1)
    return str(total) if fits and open_above else NOT_SHOWN
