"""What follow-up adds to a patient's record: when the next visit is due."""

from __future__ import annotations

from django.http import HttpRequest
from django.utils import timezone

from clinic.accounts.permissions import Right, may
from clinic.follow_up.models import FollowUp
from clinic.follow_up.presenters.rescheduling import move_sentences
from clinic.patients.models import Patient
from clinic.patients.sections import Section


def due_section(request: HttpRequest, patient: Patient) -> Section | None:
    """The next visit: a date, with no clinical detail, so the desk sees it too."""
    followed = FollowUp.objects.open().filter(stoma__patient=patient)
    due = followed.select_related("set_by").prefetch_related("moves__by").order_by("due").first()
    if due is None:
        return None
    return Section(
        title="Next visit",
        template="follow_up/_due.html",
        context={
            "due": due,
            "today": timezone.localdate(),
            "moves": move_sentences(due, clinical=may(request.user, Right.SEE_CLINICAL)),
        },
    )
