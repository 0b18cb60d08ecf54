"""Several comparisons taken together: is there any difference at all?"""

from __future__ import annotations

from collections.abc import Iterable

from planning.inputs.usable_numbers import check_numbers


def any_difference(chances: Iterable[float], level: float) -> bool:
    """Whether chance alone makes so much, in one or other of them, in no more than ``level``.

    Of n chances one is at most 1/n of the level, or two at most 2/n, or all at most the level
    (Simes, Biometrika 1986). It holds for measures that rise and fall together, as leaks and wear
    do, and for measures that have nothing to do with one another.
    """
    chances = tuple(chances)
    check_numbers(chances=chances, low=0, high=1, may_be_empty=True)
    check_numbers(level=level, above=0, below=1)
    ordered = sorted(chances)
    return any(p <= level * (n + 1) / len(ordered) for n, p in enumerate(ordered))
