"""Flags of the stoma itself: standing lower, prolapsing, a bulge beside it, a changing size."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from planning.course.channels import LENGTH, PROTRUSION, WIDTH
from planning.course.hernia import CLASSES, NO_TYPE, hernia_type
from planning.course.largest import bulge_height_mm, bulge_width_mm, prolapse_mm
from planning.course.number_words import day_words, number, sentence
from planning.course.real_change import Error, Move, fall, fixed, moved, rise
from planning.course.record import Course
from planning.course.results import CourseFlag, Point
from planning.course.series import points, trouble_threshold, values
from planning.evidence.thresholds import (
    BULGE_HEIGHT_SEM,
    BULGE_WIDTH_SEM,
    PROLAPSE_SEM,
    RETRACTED_AT,
    SHRINKS_DAYS,
)
from planning.facts.height import Height, height_of
from planning.results.plan import Reason, Urgency

_LOW = (Height.SHORT, Height.FLUSH, Height.RETRACTED)
_ERROR = ("bland1986/error", "design_value")


def retraction(course: Course) -> CourseFlag | None:
    """Lower by more than error, and now below the height at which its kind tends to leak."""
    move = fall(points(course, PROTRUSION), fixed(course.errors.height.sem), PROTRUSION.unit)
    if move is None:
        return None
    now = height_of(course.kind, move.latest.value)
    if now not in _LOW:
        return None
    heights = trouble_threshold(course.kind).source, RETRACTED_AT.source
    sources = tuple(dict.fromkeys((*heights, *_ERROR)))
    return CourseFlag(
        key="retraction",
        text=f"The stoma is lower than before and {_said(now, move.latest.value)}.",
        figures=f"Protrusion {move.figures}.{course.errors.height.own_words}",
        rule="Protrusion fell by more than measurement error, to below the height at which this "
        "kind of stoma tends to leak.",
        because=(
            Reason(f"It fell {move.words}.", sources, "measurement.protrusion_mm"),
            *_early(course, move.latest.day),
        ),
        sources=sources,
        urgency=Urgency.ROUTINE,
        error=course.errors.height.words,
    )


def _said(height: Height, mm: float) -> str:
    """What is below the skin is retracted; from there up to the height at which its kind tends to
    leak, it may be on its way."""
    if mm < 0:
        return "now retracted, below the skin"
    return f"is {height.value} now: retraction may be emerging"


def prolapse(course: Course) -> CourseFlag | None:
    """Longer beyond error than at an earlier visit that measured it; none then counts as 0."""
    move = rise(values(course, prolapse_mm), fixed(PROLAPSE_SEM.value), "mm")
    if move is None:
        return None
    return CourseFlag(
        key="prolapse",
        text="The prolapse is growing." if move.since.value else "There is a new prolapse.",
        figures=f"Length beyond the usual {move.figures}.",
        rule="The prolapse grew by more than measurement error.",
        because=(Reason(f"It grew {move.words}.", _ERROR, "measurement.prolapse"),),
        sources=_ERROR,
        urgency=Urgency.ROUTINE,
    )


def hernia(course: Course) -> CourseFlag | None:
    """The bulge is higher or wider beyond error. Its class needs the size of the defect in the
    muscle and whether there is an incisional hernia: neither is charted, so none is made up."""
    height = rise(values(course, bulge_height_mm), fixed(BULGE_HEIGHT_SEM.value), "mm")
    width = rise(values(course, bulge_width_mm), fixed(BULGE_WIDTH_SEM.value), "mm")
    found = [(name, m) for name, m in (("height", height), ("width", width)) if m is not None]
    if not found:
        return None
    known = hernia_type(None, incisional=None)
    return CourseFlag(
        key="hernia",
        text="The bulge beside the stoma is growing.",
        figures=_figures(found) + f" {NO_TYPE if known is None else known}.",
        rule="The bulge grew in height or width by more than measurement error.",
        because=tuple(
            Reason(f"Its {name} grew {move.words}.", _ERROR, "abdomen.bulges")
            for name, move in found
        ),
        sources=(*CLASSES, *_ERROR),
        urgency=Urgency.ROUTINE,
    )


def size(course: Course) -> CourseFlag | None:
    """Length or width differs beyond error from the visit before: the old opening no longer fits.

    While it still shrinks after surgery that is expected; afterwards it wants a reason.
    """
    error: Error = fixed(course.errors.size.sem)
    moves = (
        ("length", _newest(points(course, LENGTH), error)),
        ("width", _newest(points(course, WIDTH), error)),
    )
    found = [(name, move) for name, move in moves if move is not None]
    if not found:
        return None
    early = _early(course, found[0][1].latest.day)
    sources = (*_ERROR, *((SHRINKS_DAYS.source,) if early else ()))
    return CourseFlag(
        key="size",
        text=_why_size(course, early=bool(early)),
        figures=_figures(found) + course.errors.size.own_words,
        rule="Length or width changed by more than measurement error since the visit before.",
        because=tuple(
            Reason(f"The {name} went {move.words}.", _ERROR, f"measurement.{name}_mm")
            for name, move in found
        )
        + early,
        sources=sources,
        error=course.errors.size.words,
    )


def _why_size(course: Course, *, early: bool) -> str:
    if course.newest_young:
        return "The stoma changed size: tell the paediatric stoma team. Children grow."
    if early:
        return "The stoma is still changing size after surgery: measure at every change, cut again."
    return "The stoma changed size: cut again, and ask why (weight, hernia, prolapse)."


def _figures(found: Sequence[tuple[str, Move]]) -> str:
    return sentence("; ".join(f"{name} {move.figures}" for name, move in found))


def _newest(values: tuple[Point, ...], error: Error) -> Move | None:
    return moved(values[-2:], error, "mm")


def _early(course: Course, day: date) -> tuple[Reason, ...]:
    """A reason more while an adult's stoma still shrinks after surgery."""
    if course.newest_young:
        return ()
    if course.surgery is None or (day - course.surgery).days >= SHRINKS_DAYS.value:
        return ()
    text = (
        f"On {day_words(day)} surgery was {(day - course.surgery).days} days ago; swelling goes "
        f"down for {number(SHRINKS_DAYS.value)} days."
    )
    return (Reason(text, (SHRINKS_DAYS.source,)),)
