"""Several words as one clause."""

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
