"""Flag of the mucocutaneous junction: it has opened, or the separation is getting deeper.

Its depth is read off the same ruler as a height, so the error of a height holds (design value).
"""

from __future__ import annotations

from planning.course.largest import separation_mm
from planning.course.number_words import day_words, listed, measure
from planning.course.real_change import fixed, rise
from planning.course.record import Course, SignedVisit
from planning.course.results import CourseFlag
from planning.course.series import values
from planning.inputs.findings import Separation
from planning.results.plan import Reason, Urgency

_ERROR = ("bland1986/error", "design_value")


def separation(course: Course) -> CourseFlag | None:
    """Apart now where the visit before that looked found it whole, or deeper beyond error."""
    looked = [visit for visit in course.visits if visit.findings.measurement.junction is not None]
    if not looked or not _apart(looked[-1]):
        return None
    newest = looked[-1]
    if len(looked) > 1 and not _apart(looked[-2]):
        whole = day_words(looked[-2].day)
        return _flag(newest, "The mucocutaneous junction has opened", f"Whole on {whole}.", ())
    move = rise(values(course, separation_mm), fixed(course.errors.height.sem), "mm")
    if move is None or move.latest.day != newest.day:
        return None
    text = "The mucocutaneous separation is getting deeper"
    figures = f"Depth {move.figures}.{course.errors.height.own_words}"
    return _flag(newest, text, figures, _ERROR, course.errors.height.words)


def _flag(
    newest: SignedVisit, text: str, figures: str, sources: tuple[str, ...], error: str = ""
) -> CourseFlag:
    sources = sources or ("design_value",)
    return CourseFlag(
        key="separation",
        text=f"{text}: {listed(tuple(_place(one) for one in _apart(newest)))}.",
        figures=figures,
        rule="The junction was whole and is apart, or the separation is deeper by more than "
        "measurement error.",
        because=(Reason(f"{text}.", sources, "measurement.junction"),),
        sources=sources,
        urgency=Urgency.ROUTINE,
        error=error,
    )


def _apart(visit: SignedVisit) -> tuple[Separation, ...]:
    return visit.findings.measurement.junction or ()


def _place(one: Separation) -> str:
    """``4 to 6 o'clock, 8 mm deep``."""
    deep = "depth not recorded" if one.depth_mm is None else f"{measure(one.depth_mm, 'mm')} deep"
    return f"{one.hours}, {deep}"
