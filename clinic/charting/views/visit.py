"""A visit for reading: what was found, what was planned, what was decided."""

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, may, needs
from clinic.audit.record import record
from clinic.measuring_error.shown import repeats_of
from clinic.patient_answers.queries import answered
from clinic.patient_answers.questions import NOT_USED, NOT_VALIDATED
from clinic.plans.plan_with_decisions import decided_plan
from clinic.plans.presenters.panel import signed_context
from clinic.plans.suspected_materials import suspects_of
from clinic.teaching.missing import taught_at
from clinic.visits.models import Assessment, Visit
from clinic.visits.presenters.clockface import face_of
from clinic.visits.presenters.late_entries import kept_copies
from clinic.visits.presenters.summary import summary_of
from clinic.visits.queries import with_parts


@require_GET
@needs(Right.SEE_CLINICAL)
def visit(request: HttpRequest, visit: UUID) -> HttpResponse:
    """A signed visit; a draft opens for charting to anyone who may chart."""
    found = get_object_or_404(
        Visit.objects.exclude(state="discarded").select_related("patient", "clinician"), uuid=visit
    )
    if found.is_draft and may(request.user, Right.CHART):
        return redirect("charting:chart", found.assessments.order_by("stoma_id")[0].uuid)
    record(request_or_actor=request, action="viewed", subject=found)
    assessments = with_parts().with_rows("decisions").filter(visit=found).prefetch_related("photos")
    return render(
        request,
        "charting/visit.html",
        {
            "visit": found,
            "patient": found.patient,
            "parts": [_part(assessment) for assessment in assessments],
            "addenda": found.addenda.select_related("by"),
            "kept": kept_copies(found, request.user.pk) if found.is_signed else (),
        },
    )


def _part(assessment: Assessment) -> dict[str, object]:
    decided = decided_plan(assessment)
    return {
        "assessment": assessment,
        "face": face_of(assessment, uid=f"face-{assessment.pk}"),
        "summary": summary_of(assessment),
        "taught": taught_at(assessment),
        "repeats": repeats_of(assessment),
        "answered": answered(assessment),
        "about_answers": f"{NOT_VALIDATED} {NOT_USED}",
        "plan": signed_context(decided) if decided else None,
        "suspects": suspects_of(decided) if decided else (),
        "plan_within": f"plan-{assessment.pk}-",
        "rule_set": decided.plan.rule_set if decided else "",
    }
