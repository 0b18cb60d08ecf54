"""Numbers that nothing can be worked out from are refused by name, never worked with.

Every public function of ``planning.statistics``, ``planning.geometry`` and ``planning.course`` that
takes numbers asks here first (``tests/planning/test_usable_numbers.py`` walks them all). What is
merely too little to say anything is ``statistics.TooFew``, an answer and no error.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from math import inf, isinf, isnan

import numpy as np


class UnusableNumber(ValueError):  # noqa: N818 - said as it is
    """Not a number, endless, out of range, or none given. The value is not repeated: it may be a
    patient's, and errors go into logs."""


def check_numbers(
    *,
    low: float = -inf,
    high: float = inf,
    above: float = -inf,
    below: float = inf,
    whole: bool = False,
    endless: bool = False,
    may_be_empty: bool = False,
    **named: object,
) -> None:
    """Raises ``UnusableNumber`` unless each is a number from ``low`` to ``high``, beyond ``above``
    and short of ``below``; so must be all in a sequence, a mapping's values or an array.

    None is not recorded and passes. ``whole``: as a count is. ``endless`` lets the infinite in;
    ``may_be_empty`` what holds nothing, where that has a meaning.
    """
    for name, given in named.items():
        empty = True
        for value in _each(given):
            empty = False
            if isnan(value) or (isinf(value) and not endless):
                raise UnusableNumber(f"{name}: this is no number to work with.")
            if not (low <= value <= high and (value > above or above == -inf)):
                raise UnusableNumber(f"{name}: {_range(low, high, above, below)} is needed.")
            if whole and value != int(value):
                raise UnusableNumber(f"{name}: a whole number is needed.")
            if value >= below and below != inf:
                raise UnusableNumber(f"{name}: {_range(low, high, above, below)} is needed.")
        if empty and given is not None and not may_be_empty:
            raise UnusableNumber(f"{name}: no number is given.")


def _each(given: object) -> Iterator[float]:
    if given is None:
        return
    if isinstance(given, np.ndarray):
        # The least and the most stand for all of them; either is NaN where one is.
        if given.size:
            yield from (float(given.min()), float(given.max()))
    elif isinstance(given, Mapping):
        yield from _each(given.values())
    elif isinstance(given, Iterable):
        for inner in given:
            yield from _each(inner)
    else:
        yield float(given)  # type: ignore[arg-type]


def _range(low: float, high: float, above: float, below: float) -> str:
    limits = ((low, "from"), (above, "above"), (high, "to"), (below, "below"))
    return " ".join(["a number", *(f"{word} {v:g}" for v, word in limits if not isinf(v))])
