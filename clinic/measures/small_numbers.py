"""Small numbers are hidden, so that no one can be picked out of a figure of the clinic.

Counts of people, stomas, visits and referrals from 1 to 4 are not shown, nor any rate that rests
on them (common practice, no source): neither of those with a finding nor of those without it.
What is hidden can also not be worked out from a total.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

#: The smallest count that is shown (common practice, no source).
LEAST_SHOWN: Final = 5
NOT_SHOWN: Final = "not shown"


def is_small(number: int) -> bool:
    """From 1 to 4."""
    return 0 < number < LEAST_SHOWN


def count(number: int) -> str:
    """A count as it is shown.

    >>> [count(n) for n in (0, 1, 4, 5)]
    ['0', 'fewer than 5', 'fewer than 5', '5']
    """
    return f"fewer than {LEAST_SHOWN}" if is_small(number) else str(number)


def can_show(whole: int, some: int) -> bool:
    """Whether a figure about ``some`` of ``whole`` may be shown: enough in all, and few neither
    with it nor without.

    >>> [can_show(*of) for of in ((4, 0), (5, 0), (40, 4), (40, 5), (40, 36), (40, 40))]
    [False, True, False, True, False, True]
    """
    return whole >= LEAST_SHOWN and not is_small(some) and not is_small(whole - some)


def some_of(whole: int, some: int) -> str:
    """How many of ``whole`` (itself shown), as it is shown.

    Under twice the least that is shown, no word says which of the two is small: that would say
    of 6 that it is 1 and 5.

    >>> [some_of(*of) for of in ((40, 0), (40, 4), (40, 36), (40, 40), (6, 1), (6, 5), (4, 4))]
    ['0', 'fewer than 5', 'not shown', '40', 'not shown', 'not shown', 'not shown']
    """
    if can_show(whole, some):
        return str(some)
    return count(some) if whole >= 2 * LEAST_SHOWN and is_small(some) else NOT_SHOWN


def parts(numbers: Sequence[int]) -> tuple[list[str], str]:
    """The parts of a total, and the total, as they are shown.

    Beside a small part only 0 is shown, as the total would give the small one away.
    Where the total still says more of it than that it is small, it is not shown which part
    is small; the total is.
    """
    small = [n for n in numbers if is_small(n)]
    total = sum(numbers)
    if not small or total < LEAST_SHOWN:
        return [count(n) for n in numbers], count(total)
    if _leaves_open(total, len(small), len(numbers) - len(small) - list(numbers).count(0)):
        return [count(n) if n < LEAST_SHOWN else NOT_SHOWN for n in numbers], str(total)
    return [NOT_SHOWN if n else "0" for n in numbers], str(total)


def _leaves_open(total: int, small: int, large: int) -> bool:
    """Whether every small part of ``total`` could still be anything from 1 to 4."""
    most = LEAST_SHOWN - 1
    at_most = total - (small - 1) - LEAST_SHOWN * large >= most
    at_least = large > 0 or total - most * (small - 1) <= 1
    return at_most and at_least
