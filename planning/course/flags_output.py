"""Flag of the output: high again, or high and rising. Never for urine.

No flag speaks of weight, or of what the person eats and drinks.
"""

from __future__ import annotations

from planning.course.channels import OUTPUT
from planning.course.number_words import day_words, measure, number
from planning.course.real_change import fixed, step
from planning.course.record import Course
from planning.course.results import CourseFlag, Point
from planning.course.series import points
from planning.evidence.thresholds import OUTPUT_CALL, OUTPUT_EMERGENCY, OUTPUT_SEM, OUTPUT_URGENT
from planning.inputs.findings import StomaKind
from planning.results.plan import Reason, Urgency

_UNIT = OUTPUT.unit


def high_output(course: Course) -> CourseFlag | None:
    """The newest volume is at the level to call about, and so was the one before, or it rose
    beyond error."""
    volumes = points(course, OUTPUT)
    if course.kind is StomaKind.UROSTOMY or len(volumes) < 2:
        return None
    before, now = volumes[-2:]
    if now.value < OUTPUT_CALL.value:
        return None
    repeated = before.value >= OUTPUT_CALL.value
    move = step(volumes, fixed(OUTPUT_SEM.value), _UNIT)
    rising = move is not None and move.change > 0
    if not repeated and not rising:
        return None
    return _flag(before, now, _how(repeated=repeated, rising=rising))


def _how(*, repeated: bool, rising: bool) -> str:
    if repeated and rising:
        return "High output twice running, and rising."
    return "High output twice running." if repeated else "Output is high and rising."


def _flag(before: Point, now: Point, text: str) -> CourseFlag:
    sources = tuple(t.source for t in (OUTPUT_CALL, OUTPUT_URGENT, OUTPUT_EMERGENCY))
    figures = (
        f"{measure(before.value, _UNIT)} on {day_words(before.day)}, "
        f"{measure(now.value, _UNIT)} on {day_words(now.day)}"
    )
    emergency = now.value >= OUTPUT_EMERGENCY.value
    return CourseFlag(
        key="high_output",
        text=text,
        figures=f"{figures}; call from {number(OUTPUT_CALL.value, 0)}.",
        rule=f"{number(OUTPUT_CALL.value, 0)} {_UNIT} or more at the last two visits that measured "
        "it, or at the last with a rise of more than measurement error.",
        because=(Reason(f"{figures}.", (*sources, "design_value"), "output.volume_ml_24h"),),
        sources=(*sources, "design_value"),
        urgency=Urgency.EMERGENCY if emergency else Urgency.SAME_DAY,
    )
