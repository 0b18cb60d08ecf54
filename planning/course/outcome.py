"""How every earlier plan did: helped, no different, worse, or not known yet.

Before: from the visit before the plan to the plan. Since: until the next plan that changed
something, else until now. The visit at which that next plan was made still answers for this one.
The rules are in ``judge_leaks``, ``judge_wear``, ``judge_skin`` and ``verdict``.
"""

from __future__ import annotations

from collections.abc import Sequence

from planning.course.harm import hurt_by
from planning.course.judge_leaks import judge_leaks
from planning.course.judge_skin import judge_skin
from planning.course.judge_wear import judge_wear
from planning.course.periods import in_order, next_change, periods_of, wear_in
from planning.course.record import Course, SignedVisit
from planning.course.results import Finding, PlanOutcome
from planning.course.verdict import overall, remains, words


def outcomes(course: Course) -> tuple[PlanOutcome, ...]:
    """The outcome of the plan of each visit, oldest first."""
    course = in_order(course)
    return tuple(outcome_of(course, index) for index in range(len(course.visits)))


def outcome_of(course: Course, index: int) -> PlanOutcome:
    """The outcome of the plan of one visit; ``course`` must be oldest first."""
    plan, later = course.visits[index], seen_by(course, index)
    before, since = (wear_in(course, period) for period in periods_of(course.visits, index))
    found = (
        judge_leaks(before, since),
        judge_wear(before, since),
        judge_skin(plan, later),
    )
    until = next_change(course.visits, index)
    return PlanOutcome(
        day=plan.day,
        until=None if until is None else course.visits[until].day,
        verdict=overall(found),
        text=_text(course, index, found),
        findings=found,
        supplies=plan.supplies,
        hurt=hurt_by(plan, later),
        changed=plan.changed,
        persists=_persists(found),
    )


def seen_by(course: Course, index: int) -> Sequence[SignedVisit]:
    """The visits that saw what the plan of visit ``index`` did."""
    until = next_change(course.visits, index)
    return course.visits[index + 1 : None if until is None else until + 1]


def _persists(found: Sequence[Finding]) -> bool | None:
    known = [finding for finding in found if finding.after is not None]
    return any(remains(finding) for finding in known) if known else None


def _text(course: Course, index: int, found: Sequence[Finding]) -> str:
    changed = bool(course.visits[index].changed)
    lead = "" if changed else "This plan changed nothing. "
    answer = _recorded_answer(course.visits[index + 1 : index + 2])
    return f"{lead}{words(found, changed=changed)}{answer}"


def _recorded_answer(following: Sequence[SignedVisit]) -> str:
    """What was answered at the next visit, beside the figures."""
    answers: dict[bool | None, str] = {
        True: " Recorded at the next visit: it helped.",
        False: " Recorded at the next visit: it did not help.",
    }
    return "".join(answers.get(visit.said_helped, "") for visit in following)
