"""Flag of the output: high again, or high and rising. Never for urine.

How urgent it is, the red flag of the newest visit says: by the agreed target, else by volume, day
and risks. Only that it came back, or rose, is judged here.
"""

from __future__ import annotations

from planning.course.channels import OUTPUT
from planning.course.number_words import day_words, measure, number
from planning.course.real_change import rise, share_of_mean
from planning.course.record import Course
from planning.course.results import CourseFlag, Point
from planning.course.series import points
from planning.evidence.thresholds import OUTPUT_CALL, OUTPUT_EMERGENCY, OUTPUT_SEM, OUTPUT_URGENT
from planning.facts.derive import Facts, derive
from planning.inputs.findings import BaselineKind, History, StomaKind
from planning.results.plan import Reason, Urgency
from planning.safety.flags_output import high_output as of_one_visit

_UNIT = OUTPUT.unit


def high_output(course: Course) -> CourseFlag | None:
    """The newest volume is at the level to call about, and so was the one before, or it rose
    beyond error. None while it is as agreed."""
    volumes = points(course, OUTPUT)
    if course.kind is StomaKind.UROSTOMY or len(volumes) < 2:
        return None
    before, now = volumes[-2:]
    if now.value < OUTPUT_CALL.value:
        return None
    repeated = before.value >= OUTPUT_CALL.value
    rising = rise((before, now), share_of_mean(OUTPUT_SEM.value), _UNIT) is not None
    if not repeated and not rising:
        return None
    facts = _newest_measured(course)
    verdict = of_one_visit(facts)
    if verdict is None and facts.history.baseline(BaselineKind.OUTPUT_TARGET):
        return None
    urgency = None if verdict is None else verdict.urgency
    return _flag(before, now, _how(repeated=repeated, rising=rising), urgency)


def _newest_measured(course: Course) -> Facts:
    """What the newest visit that measured the output found, beside what is agreed today."""
    newest = next(v.findings for v in reversed(course.visits) if OUTPUT.read(v.findings))
    return derive(newest, History(baselines=course.baselines))


def _how(*, repeated: bool, rising: bool) -> str:
    if repeated and rising:
        return "High output at two visits in a row, and rising."
    return "High output at two visits in a row." if repeated else "Output is high and rising."


def _flag(before: Point, now: Point, text: str, urgency: Urgency | None) -> CourseFlag:
    sources = tuple(t.source for t in (OUTPUT_CALL, OUTPUT_URGENT, OUTPUT_EMERGENCY))
    figures = (
        f"{measure(before.value, _UNIT)} on {day_words(before.day)}, "
        f"{measure(now.value, _UNIT)} on {day_words(now.day)}"
    )
    return CourseFlag(
        key="high_output",
        text=text,
        figures=f"{figures}; call from {number(OUTPUT_CALL.value)}.",
        rule=f"{number(OUTPUT_CALL.value)} {_UNIT} or more at the last two visits that measured "
        "it, or at the last with a rise of more than measurement error; not while it is as agreed. "
        "As urgent as the last of them alone.",
        because=(Reason(f"{figures}.", (*sources, "design_value"), "output.volume_ml_24h"),),
        sources=(*sources, "design_value"),
        urgency=urgency,
    )
