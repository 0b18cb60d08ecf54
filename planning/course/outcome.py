"""How every earlier plan did: helped, no different, worse, or no difference shown yet.

Before: since the last change, without the time that made the visit (``periods``). Since: until the
next change, as known at the latest planned look (``looks``), twelve weeks at most. The visit at
which the next plan was made still answers for this one. The rules are in ``margin``,
``judge_leaks``, ``judge_wear``, ``judge_skin`` and ``verdict``.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

from planning.course.harm import hurt_by
from planning.course.judge_leaks import judge_leaks
from planning.course.judge_skin import judge_skin
from planning.course.judge_wear import judge_wear
from planning.course.looks import Looks, looks_of, window_ends
from planning.course.margin import SOURCES
from planning.course.number_words import day_words
from planning.course.periods import (
    check_index,
    checks_before,
    end_of,
    in_order,
    next_change,
    worn_before,
    worn_since,
)
from planning.course.record import Course, SignedVisit
from planning.course.results import Finding, Judged, PlanOutcome, Verdict
from planning.course.verdict import overall, remains, words
from planning.evidence.thresholds import LOOK_FROM


def outcomes(course: Course) -> tuple[PlanOutcome, ...]:
    """The outcome of the plan of each visit, oldest first."""
    course = in_order(course)
    return tuple(outcome_of(course, index) for index in range(len(course.visits)))


def outcome_of(course: Course, index: int) -> PlanOutcome:
    """The outcome of the plan of one visit; ``course`` must be oldest first."""
    check_index(course.visits, index)
    plan = course.visits[index]
    until = next_change(course.visits, index)
    looks = _looks(course, index)
    found = _found(course, index, looks)
    return PlanOutcome(
        day=plan.day,
        until=None if until is None else course.visits[until].day,
        verdict=overall(found),
        text=_text(course, index, found, looks),
        findings=found,
        supplies=plan.supplies,
        hurt=hurt_of(course, index),
        changed=plan.changed,
        persists=_persists(found),
        look=looks.latest,
    )


def seen_by(course: Course, index: int) -> Sequence[SignedVisit]:
    """The visits that saw what the plan of visit ``index`` did, up to the next change."""
    check_index(course.visits, index)
    until = next_change(course.visits, index)
    return course.visits[index + 1 : None if until is None else until + 1]


def hurt_of(course: Course, index: int) -> frozenset[str]:
    """Supplies of the plan of visit ``index`` that hurt."""
    check_index(course.visits, index)
    plan = course.visits[index]
    return hurt_by(plan, seen_by(course, index), until=window_ends(plan.day))


def _looks(course: Course, index: int) -> Looks:
    plan, until = course.visits[index].day, next_change(course.visits, index)
    return looks_of(
        plan,
        [visit.day for visit in seen_by(course, index)],
        None if until is None else course.visits[until].day,
        end_of(course),
    )


def _found(course: Course, index: int, looks: Looks) -> tuple[Finding, Finding, Finding]:
    plan, look = course.visits[index], looks.latest
    if look is None:
        leaks, wear, skin = (_too_early(of, plan, looks) for of in Judged)
        return leaks, wear, skin
    before, since = worn_before(course, index), worn_since(course, index, look)
    gap = before.gap(plan.day, look)
    return (
        judge_leaks(before.wear, since, fair=before.fair, gap=gap),
        judge_wear(before.wear, since, fair=before.fair, gap=gap),
        judge_skin(
            plan,
            [visit for visit in seen_by(course, index) if visit.day <= look],
            earlier=checks_before(course.visits, index),
            error=course.errors.of_area,
            note=course.errors.area.own_words,
        ),
    )


def _too_early(of: Judged, plan: SignedVisit, looks: Looks) -> Finding:
    if looks.next is None:
        text = "It applied for no day that could be judged."
    else:
        first = day_words(plan.day + timedelta(days=int(LOOK_FROM.value)))
        text = f"It is judged at the first visit from {first}, on {day_words(looks.next)} at last."
    return Finding(of, Verdict.CANNOT_TELL, text, SOURCES)


def _persists(found: Sequence[Finding]) -> bool | None:
    known = [finding for finding in found if finding.after is not None]
    return any(remains(finding) for finding in known) if known else None


def _text(course: Course, index: int, found: Sequence[Finding], looks: Looks) -> str:
    changed = bool(course.visits[index].changed)
    lead = "" if changed else "This plan changed nothing. "
    answer = _recorded_answer(course.visits[index + 1 : index + 2])
    return f"{lead}{words(found, changed=changed)}{_as_of(looks)}{answer}"


def _as_of(looks: Looks) -> str:
    if looks.latest is None:
        return ""
    said = f" As known on {day_words(looks.latest)}, look {looks.due} of {len(looks.days)}"
    return f"{said}." if looks.next is None else f"{said}; the next by {day_words(looks.next)}."


def _recorded_answer(following: Sequence[SignedVisit]) -> str:
    """What was answered at the next visit, beside the figures."""
    answers: dict[bool | None, str] = {
        True: " Recorded at the next visit: it helped.",
        False: " Recorded at the next visit: it did not help.",
    }
    return "".join(answers.get(visit.said_helped, "") for visit in following)
