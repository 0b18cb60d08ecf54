"""Questions asked of next visits in more than one place. Each is one query."""

from __future__ import annotations

from django.db.models import Exists, OuterRef, Q
from django.db.models.fields.json import KeyTextTransform

from clinic.follow_up.models import FollowUp, FollowUpQuerySet
from clinic.referrals.models import Referral, Urgency

#: Urgencies of a plan whose visit no one puts off without a clinician.
PRESSING = (Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE, Urgency.DAYS)


def due(*, clinical: bool) -> FollowUpQuerySet:
    """Visits still to come with whom they are for; with flags for anyone who sees clinical
    matters."""
    found = FollowUp.objects.open().select_related("stoma__patient", "set_by__visit")
    found = found.prefetch_related("moves__by").order_by("due", "id")
    if not clinical:
        return found
    return with_weight(found)


def with_weight(rows: FollowUpQuerySet) -> FollowUpQuerySet:
    """``urgency``: of the plan that asked for the visit; ``waits``: a referral of the stoma has
    no answer yet."""
    unanswered = Referral.objects.unanswered().filter(assessment__stoma_id=OuterRef("stoma_id"))
    return rows.annotate(
        urgency=KeyTextTransform("urgency", "set_by__plan__plan"), waits=Exists(unanswered)
    )


def weighs(follow_up: FollowUp) -> bool:
    """Whether a later day needs a nurse's agreement.

    It does where the plan that asked for the visit was urgent, or a referral of the stoma has no
    answer yet.
    """
    found = with_weight(FollowUp.objects.all()).filter(pk=follow_up.pk)
    return found.filter(Q(urgency__in=PRESSING) | Q(waits=True)).exists()
