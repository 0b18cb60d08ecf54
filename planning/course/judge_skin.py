"""Better skin since the plan? The damaged area at its visit and at the last visit it answers for.

Rule: the interval of the difference, from the error of both readings, decides (``margin``); the
margin of *no different* is the smallest detectable change (2.77 times the error of measuring
alone). Skin that was bad when the visit was made would partly settle anyway. So *helped* needs a
look before that, at least ``CHECK_LEAST`` days earlier and with nothing changed since, that is
beaten as well; and what is no worse than at such a look is not *worse*.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import sqrt
from statistics import NormalDist

from planning.course.margin import AT_A_LOOK, SOURCES, after, interval_words
from planning.course.number_words import day_words, number
from planning.course.record import SignedVisit
from planning.course.results import Finding, Judged, Verdict
from planning.course.skin import damaged
from planning.course.skin_reading import AreaError, Reading, reading_of
from planning.evidence.thresholds import ALIKE_LEVEL
from planning.inputs.usable_numbers import check_numbers
from planning.statistics.error import smallest_detectable_change

_SOURCES = ("bland1986/error", *SOURCES)
_THEN = "when the plan was made"
_DESIGN = AreaError()


def judge_skin(
    plan: SignedVisit,
    later: Sequence[SignedVisit],
    *,
    earlier: Sequence[SignedVisit] = (),
    level: float = AT_A_LOOK,
    error: AreaError = _DESIGN,
    note: str = "",
) -> Finding:
    """``later``: the visits that saw what this plan did, oldest first. ``earlier``: the checks with
    nothing changed since, oldest first. ``error``: of a damaged area, ours or the clinic's own, and
    ``note``, what is then said of it."""
    check_numbers(level=level, above=0, below=1)
    before = reading_of(plan.findings, error)
    looked = [visit for visit in later if damaged(visit.findings) is not None]
    now = reading_of(looked[-1].findings, error) if looked else None
    if before is None or now is None:
        text = _missing(plan) if before is None else _unknown(looked, later)
        area = None if before is None else before.area
        return Finding(Judged.SKIN, Verdict.CANNOT_TELL, text, _SOURCES, area)
    checks = [found for visit in earlier if (found := reading_of(visit.findings, error))]
    told = _compared(before, now, checks[-1] if checks else None, day_words(looked[-1].day), level)
    return replace(told, text=told.text + note) if before.area or now.area else told


def _compared(
    before: Reading, now: Reading, check: Reading | None, day: str, level: float
) -> Finding:
    chance, better = _chance(before, now), now.area < before.area
    verdict, settles = Verdict.CANNOT_TELL, False
    if chance > level:
        verdict = Verdict.NO_DIFFERENT if _alike(before, now) else verdict
    else:
        chance = max(chance, _beyond_usual(now, check, better=better))
        if chance <= level:
            verdict = Verdict.HELPED if better else Verdict.WORSE
        else:
            settles = better
    text = _text(before, now, day, level, verdict, settles=settles)
    return Finding(
        Judged.SKIN,
        verdict,
        text,
        _SOURCES,
        before.area,
        now.area,
        "mm²",
        chance,
        settles=settles,
    )


def _chance(one: Reading, other: Reading) -> float:
    """That error of measuring alone makes so great a difference, up or down."""
    return 2 * NormalDist().cdf(-abs(other.area - one.area) / _error(one, other))


def _error(one: Reading, other: Reading) -> float:
    """Of the difference of two readings of one area, which lies between them."""
    return (one.sem + other.sem) / sqrt(2)


def _beyond_usual(now: Reading, check: Reading | None, *, better: bool) -> float:
    """The chance of a change that clear against the look before, 1 where it only came back to it.
    What got worse needs no such look."""
    if check is None:
        return 1.0 if better else 0.0
    return _chance(check, now) if (now.area < check.area) is better else 1.0


def _alike(one: Reading, other: Reading) -> bool:
    """The narrow interval of the difference lies wholly inside the margin."""
    # What matters does not grow with how badly it is measured: the margin stays the assumed one.
    margin = smallest_detectable_change(_DESIGN.between(one.area, other.area))
    return abs(other.area - one.area) + _reach(one, other, ALIKE_LEVEL.value) < margin


def _reach(one: Reading, other: Reading, level: float) -> float:
    """How far chance ``level`` reaches to either side."""
    return NormalDist().inv_cdf(1 - level / 2) * _error(one, other)


def _text(
    before: Reading, now: Reading, day: str, level: float, verdict: Verdict, *, settles: bool
) -> str:
    if not before.area and not now.area:
        return f"The skin was intact {_THEN} and on {day}."
    least = number(_reach(before, now, level), 0)
    error = f" (within measuring error under {least} mm², {interval_words(level)})"
    return f"{_both(before.area, now.area, day)}{error}.{after(verdict, settles=settles)}"


def _both(before: float, area: float, day: str) -> str:
    then = f"{number(before, 0)} mm² of skin was damaged {_THEN}"
    if not before:
        return f"The skin was intact {_THEN}, and {number(area, 0)} mm² of it damaged on {day}"
    return f"{then}, {number(area, 0)} mm² on {day}" if area else f"{then}, none on {day}"


def _missing(plan: SignedVisit) -> str:
    if damaged(plan.findings) is None:
        return f"The skin was not looked at {_THEN}."
    return f"The size of the damaged area was not recorded {_THEN}."


def _unknown(looked: Sequence[SignedVisit], later: Sequence[SignedVisit]) -> str:
    """An earlier visit with a size does not replace the last one that found damage without."""
    if not later:
        return "There has been no visit since to look at the skin."
    if not looked:
        return "The skin has not been looked at since."
    day = day_words(looked[-1].day)
    return f"The skin was damaged on {day}, but the size of the damaged area was not recorded."
