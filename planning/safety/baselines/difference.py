"""One respect in which today is not as agreed."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Difference:
    """``text`` without a full stop. ``seen`` False: not recorded today, so it may have changed."""

    text: str
    seen: bool = True


def unseen(text: str) -> Difference:
    """Not recorded today."""
    return Difference(text, seen=False)


class NoneToday(Exception):  # noqa: N818
    """Looked for today, and there is none of it."""
