"""What plans add to a patient's record: when they are due, and the last plan."""

from django.http import HttpRequest
from django.utils import timezone

from clinic.accounts.permissions import Right, may
from clinic.patients.models import Patient
from clinic.patients.sections import Section
from clinic.plans.models import FollowUp, PlanSnapshot
from clinic.plans.presenters.last_plan import judged
from clinic.plans.presenters.moves import moves_said


def due_section(request: HttpRequest, patient: Patient) -> Section | None:
    """The next visit: a date, with no clinical detail, so the desk sees it too."""
    followed = FollowUp.objects.open().filter(stoma__patient=patient)
    due = followed.select_related("set_by").prefetch_related("moves__by").order_by("due").first()
    if due is None:
        return None
    return Section(
        title="Next visit",
        template="plans/_due.html",
        context={
            "due": due,
            "today": timezone.localdate(),
            "moves": moves_said(due, clinical=may(request.user, Right.SEE_CLINICAL)),
        },
    )


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
