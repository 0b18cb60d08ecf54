"""What came before this assessment, from the plans that were signed."""

from clinic.plans.models import Choice, PlanSnapshot
from clinic.visits.models import Assessment
from planning.findings import History, Trial
from planning.snapshot import findings_from_dict


def history_of(assessment: Assessment) -> History:
    """Earlier signed visits of the same stoma, oldest first, and what the clinician agreed now."""
    earlier = list(
        PlanSnapshot.objects.filter(
            assessment__stoma_id=assessment.stoma_id,
            assessment__visit__happened_at__lt=assessment.visit.happened_at,
        )
        .exclude(assessment=assessment)
        .select_related("assessment__visit")
        .prefetch_related("assessment__decisions")
        .order_by("assessment__visit__happened_at")
    )
    after = [*(snapshot.assessment for snapshot in earlier[1:]), assessment]
    return History(
        previous=tuple(findings_from_dict(snapshot.findings) for snapshot in earlier),
        trials=tuple(
            _trial(snapshot, later) for snapshot, later in zip(earlier, after, strict=False)
        ),
        specialist_convexity_assessment=assessment.convexity_assessed is True,
        convexity_reason=assessment.convexity_reason,
        prescriber_agreed_antifungal=assessment.antifungal_agreed is True,
    )


def _trial(snapshot: PlanSnapshot, later: Assessment) -> Trial:
    """What was worn after ``snapshot``; ``later`` is where the nurse said whether it helped."""
    refused = {
        decision.key
        for decision in snapshot.assessment.decisions.all()
        if decision.choice != Choice.ACCEPTED
    }
    return Trial(
        supplies=frozenset(snapshot.plan["supplies"]) - refused,
        helped=later.last_plan_helped,
    )
