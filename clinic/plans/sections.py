"""What plans add to a patient's record: the last plan."""

from django.http import HttpRequest

from clinic.accounts.permissions import Right, may
from clinic.patients.models import Patient
from clinic.patients.sections import Section
from clinic.plans.models import PlanSnapshot
from clinic.plans.presenters.last_plan import judged


def last_plan_section(request: HttpRequest, patient: Patient) -> Section | None:
    """The latest signed plan of each stoma that is still open."""
    if not may(request.user, Right.SEE_CLINICAL):
        return None
    plans = (
        PlanSnapshot.objects.filter(assessment__visit__patient=patient)
        .select_related("assessment__stoma", "assessment__visit__patient")
        .prefetch_related("assessment__decisions", "assessment__referrals")
        .order_by("assessment__stoma_id", "-assessment__visit__happened_at")
        .distinct("assessment__stoma_id")
    )
    if not plans:
        return None
    context = {"plans": judged(plans)}
    return Section(title="Last plan", template="plans/_last_plan.html", context=context)
