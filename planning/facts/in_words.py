"""Several words as one clause, and figures as they are read."""

from __future__ import annotations

from collections.abc import Iterable


def joined(words: Iterable[str]) -> str:
    """Such as ``a, b and c``; "" for none.

    >>> joined(["fever", "rigors", "a fast pulse"])
    'fever, rigors and a fast pulse'
    """
    parts = list(words)
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def one_place(value: float) -> str:
    """No finer than a tenth, and a whole number as one: no one measures 5.01 days.

    >>> one_place(5.01), one_place(4.25), one_place(3.0)
    ('5', '4.2', '3')
    """
    return f"{round(value, 1):g}"


def in_days(value: float) -> str:
    """``1 day``, ``4.5 days``."""
    days = one_place(value)
    return f"{days} day" if days == "1" else f"{days} days"


def every_days(value: float) -> str:
    """After *every*: ``day``, ``4.5 days``."""
    return in_days(value).removeprefix("1 ")
