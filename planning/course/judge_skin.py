"""Better skin since the plan? The damaged area at its visit and at the last visit it answers for.

Rule: a change that reaches the smallest detectable one (2.77 times the error of such an area)
counts; a smaller one is within measurement error and *no different*.
"""

from __future__ import annotations

from collections.abc import Sequence

from planning.course.number_words import day_words, number
from planning.course.record import SignedVisit
from planning.course.results import Finding, Judged, Verdict
from planning.course.skin import burden_of, burden_sem, damaged
from planning.statistics.error import beyond_error, smallest_detectable_change

_SOURCES = ("bland1986/error", "design_value")
_THEN = "when the plan was made"


def judge_skin(plan: SignedVisit, later: Sequence[SignedVisit]) -> Finding:
    """``later``: the visits that saw what this plan did, oldest first."""
    before = burden_of(plan.findings)
    looked = [visit for visit in later if damaged(visit.findings) is not None]
    area = burden_of(looked[-1].findings) if looked else None
    if before is None or area is None:
        text = _missing(plan) if before is None else _unknown(looked, later)
        return Finding(Judged.SKIN, Verdict.CANNOT_TELL, text, _SOURCES, before)
    verdict, text = _compared(before, area, day_words(looked[-1].day))
    return Finding(Judged.SKIN, verdict, text, _SOURCES, before, area, "mm²")


def _compared(before: float, area: float, day: str) -> tuple[Verdict, str]:
    if not before and not area:
        return Verdict.NO_DIFFERENT, f"The skin was intact {_THEN} and on {day}."
    sem, text = burden_sem(before, area), _both(before, area, day)
    if not beyond_error(area - before, sem):
        least = number(smallest_detectable_change(sem), 0)
        error = f"a difference under {least} mm² is within measuring error"
        return Verdict.NO_DIFFERENT, f"{text}; {error}."
    return (Verdict.HELPED if area < before else Verdict.WORSE), f"{text}."


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
