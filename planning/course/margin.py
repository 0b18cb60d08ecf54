"""What counts as a difference and what as none, said the same of every measure.

*Better* or *worse*: the interval of the look is beyond no change. *No different*: the narrower
interval (90 %) lies wholly inside the margin. Anything else has *not been shown yet*, which is no
finding that nothing changed.
"""

from __future__ import annotations

from math import pi, sin, sqrt
from typing import Final

from planning.course.results import Verdict
from planning.evidence.thresholds import ALIKE_LEVEL, LOOK_LEVEL, RATE_MARGIN, SEASON, YEAR
from planning.inputs.usable_numbers import check_numbers
from planning.statistics.answer import Answer, answer
from planning.statistics.rates import compare_rates
from planning.statistics.too_few import TooFew

#: Chance allowed at one of the planned looks.
AT_A_LOOK: Final = LOOK_LEVEL.value
#: What every judgement rests on besides its own method.
SOURCES: Final = ("pocock1977/looks", "simes1986/several", "design_value")
#: What follows a difference that has not been shown.
NOT_SHOWN: Final = " No difference shown yet."
#: What follows a better that followed a bad time.
SETTLES: Final = (
    " That was the time which made the visit, and it would partly settle anyway: there is too "
    "little from before it to compare with."
)


def interval_words(level: float) -> str:
    """``97.8 % interval``."""
    check_numbers(level=level, above=0, below=1)
    return f"{100 * (1 - level):.1f}".removesuffix(".0") + " % interval"


def season(gap: float) -> float:
    """Standard error, on the scale of logarithms, that the time of year alone may put between two
    times of which the middles are ``gap`` days apart: they rise and fall by ``SEASON``."""
    check_numbers(gap=gap, low=0)
    return SEASON.value * sqrt(2) * abs(sin(pi * gap / YEAR.value))


def rates_answer(
    events: int, days: float, events_since: int, days_since: float, level: float, drift: float
) -> Answer:
    """Of two rates, the one since against the one before."""
    check_numbers(level=level, above=0, below=1)
    found = (
        compare_rates(events, days, events_since, days_since, confidence=1 - beyond, drift=drift)
        for beyond in (level, ALIKE_LEVEL.value)
    )
    limits = [(one.low, one.high) for one in found if not isinstance(one, TooFew)]
    if not limits:
        return Answer.OPEN
    wide, narrow = limits
    most = RATE_MARGIN.value
    return answer(wide, narrow, (1 / most, most), 1.0)


def after(verdict: Verdict, *, settles: bool) -> str:
    """The sentence that a verdict adds to its figures."""
    if settles:
        return SETTLES
    return NOT_SHOWN if verdict is Verdict.CANNOT_TELL else ""
