"""Flag of the skin: the damaged area grows beyond the error of its size."""

from __future__ import annotations

from planning.course.channels import BURDEN
from planning.course.real_change import rise
from planning.course.record import Course
from planning.course.results import CourseFlag
from planning.course.series import points
from planning.results.plan import Reason

_SOURCES = ("bland1986/error", "design_value")


def skin_worse(course: Course) -> CourseFlag | None:
    """Larger beyond error than at the visit before, or than at the first of the last months."""
    move = rise(points(course, BURDEN), course.errors.of_area.between, BURDEN.unit)
    if move is None:
        return None
    return CourseFlag(
        key="skin",
        text="The skin is getting worse." if move.since.value else "The skin is damaged again.",
        figures=f"Damaged area {move.figures}.{course.errors.area.own_words}",
        rule="The damaged area grew by more than measurement error.",
        because=(Reason(f"It grew {move.words}.", _SOURCES, "skin"),),
        sources=_SOURCES,
        error=course.errors.area.words,
    )
