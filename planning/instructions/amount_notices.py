"""Notices about amounts over the usual monthly maximum."""

from __future__ import annotations

from collections.abc import Iterator

from planning.results.plan import Quantity, Reason

SOURCES = ("lcd/maxima",)


def over_maximum(quantities: tuple[Quantity, ...]) -> Iterator[Reason]:
    """One for each line over its maximum, expected or at worst, in the words beside the line."""
    for line in quantities:
        if line.cap_note:
            yield Reason(f"{line.text}: {line.cap_note}", SOURCES)
