"""What the course shows that no single visit does, most urgent first.

A flag needs more than the error of measuring; each says its rule, its figures and its sources.
Weight and intake are not charted, so no flag uses them.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from planning.course.flags_output import high_output
from planning.course.flags_separation import separation
from planning.course.flags_skin import skin_worse
from planning.course.flags_stoma import hernia, prolapse, retraction, size
from planning.course.flags_wear import wear_falling
from planning.course.periods import in_order
from planning.course.record import Course
from planning.course.results import CourseFlag
from planning.results.plan import Urgency

RULES: Final[tuple[Callable[[Course], CourseFlag | None], ...]] = (
    high_output,
    skin_worse,
    separation,
    retraction,
    prolapse,
    hernia,
    wear_falling,
    size,
)


#: Held against figures for adults: silent while the newest visit was made under 16, whose own plan
#: sends output to the paediatric team.
FOR_ADULTS: Final = frozenset({high_output, retraction})


def flags(course: Course) -> tuple[CourseFlag, ...]:
    """Every flag the course raises; what needs no call comes last.

    None of a stoma that was closed: there is nothing left that could be looked at or improved.
    """
    if course.closed is not None and course.closed <= course.today:
        return ()
    ordered = in_order(course)
    rules = [rule for rule in RULES if not (ordered.newest_young and rule in FOR_ADULTS)]
    found = (rule(ordered) for rule in rules)
    return tuple(sorted((flag for flag in found if flag is not None), key=_rank))


def _rank(flag: CourseFlag) -> int:
    return len(Urgency) if flag.urgency is None else flag.urgency.rank
