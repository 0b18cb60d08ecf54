"""Everything the course of one stoma answers, at once."""

from __future__ import annotations

from planning.course.answers import answers
from planning.course.figures import figures
from planning.course.flags import flags
from planning.course.headline import headline, moves
from planning.course.outcome import outcomes
from planning.course.periods import in_order
from planning.course.record import Course
from planning.course.results import CourseReport
from planning.course.series import series


def course_report(course: Course) -> CourseReport:
    """Series, outcomes, flags, figures and the sentences on top of them; any order comes in."""
    course = in_order(course)
    drawn, judged, raised = series(course), outcomes(course), flags(course)
    return CourseReport(
        headline=headline(course, drawn, judged, raised),
        series=drawn,
        outcomes=judged,
        flags=raised,
        figures=figures(course, drawn),
        moved=moves(course, drawn, raised),
        answers=answers(drawn),
    )
