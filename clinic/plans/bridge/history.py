"""What came before this assessment: trials from before this record, then the plans that were
signed, and how each of them did."""

from __future__ import annotations

from django.utils import timezone

from clinic.plans.agreed_baselines import baselines_of
from clinic.plans.bridge.earlier_trials import trials_before_record
from clinic.plans.bridge.findings import findings_of
from clinic.plans.course import course_at, plans_of
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment, OutputAssessment, Visit
from planning.course.outcome import hurt_of, outcome_of
from planning.course.record import Course
from planning.course.results import PlanOutcome, Verdict
from planning.inputs.findings import Findings, History, Trial, Weighing


def history_of(assessment: Assessment, findings: Findings | None = None) -> History:
    """Earlier signed visits of the same stoma, oldest first, and what the clinician agreed now.

    ``findings``: those of ``assessment``, where they are at hand; they say how the plans did.
    """
    plans = [
        plan
        for plan in plans_of(assessment.stoma_id, before=assessment.visit.happened_at)
        if plan.assessment_id != assessment.pk
    ]
    trials = trials_before_record(assessment.stoma_id)
    previous: tuple[Findings, ...] = ()
    if plans:
        course = course_at(assessment, findings or findings_of(assessment), plans)
        trials += tuple(_trial(course, index) for index in range(len(plans)))
        previous = tuple(visit.findings for visit in course.visits[:-1])
    return History(
        previous=previous,
        trials=trials,
        specialist_convexity_assessment=assessment.convexity_assessed is True,
        convexity_reason=assessment.convexity_reason,
        prescriber_agreed_antifungal=assessment.antifungal_agreed is True,
        weighings=_weighings(assessment.visit),
        baselines=baselines_of(assessment.stoma, timezone.localdate(assessment.visit.happened_at)),
    )


def _weighings(visit: Visit) -> tuple[Weighing, ...]:
    """The person's weight at each earlier signed visit, oldest first; one a visit. One query."""
    charted = (
        OutputAssessment.objects.filter(
            assessment__visit__patient=visit.patient_id,
            assessment__visit__state=VisitState.SIGNED,
            assessment__visit__happened_at__lt=visit.happened_at,
        )
        .exclude(assessment__visit=visit.pk)
        .order_by("assessment__visit__happened_at", "assessment__visit", "assessment__stoma")
        .values_list("assessment__visit", "assessment__visit__happened_at", "weight_kg")
    )
    day = timezone.localdate(visit.happened_at)
    found: dict[int, Weighing] = {}
    for key, at, kg in charted:
        if kg is not None:
            found.setdefault(key, Weighing((day - timezone.localdate(at)).days, float(kg)))
    return tuple(found.values())


def _trial(course: Course, index: int) -> Trial:
    """What was worn after one plan, and how it went: as recorded at the next visit, else as the
    figures say."""
    plan, said = course.visits[index], course.visits[index + 1].said_helped
    if said is not None:
        return Trial(plan.supplies, said, hurt_of(course, index))
    outcome = outcome_of(course, index)
    return Trial(plan.supplies, helped_by(outcome), outcome.hurt)


def helped_by(outcome: PlanOutcome) -> bool | None:
    """Only what a plan changed was tried. No different is a failure only while there is still
    something to improve; that no difference has been shown yet is none."""
    if not outcome.changed:
        return None
    if outcome.verdict is Verdict.NO_DIFFERENT:
        return False if outcome.persists else None
    return {Verdict.HELPED: True, Verdict.WORSE: False}.get(outcome.verdict)
