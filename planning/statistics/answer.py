"""Three answers to *is there a difference*: yes, none that matters, or not shown yet."""

from __future__ import annotations

from enum import StrEnum

from planning.inputs.usable_numbers import check_numbers

Interval = tuple[float, float]


class Answer(StrEnum):
    HIGHER = "higher"
    LOWER = "lower"
    ALIKE = "alike"
    OPEN = "open"


def answer(interval: Interval, narrow: Interval, margin: Interval, none: float) -> Answer:
    """``none``: the value of no difference. A difference is there where the whole ``interval`` is
    beyond it; none that matters where the whole ``narrow`` interval is inside the ``margin``."""
    check_numbers(interval=interval, narrow=narrow, margin=margin, none=none, endless=True)
    if interval[0] > none:
        return Answer.HIGHER
    if interval[1] < none:
        return Answer.LOWER
    inside = margin[0] < narrow[0] and narrow[1] < margin[1]
    return Answer.ALIKE if inside else Answer.OPEN
