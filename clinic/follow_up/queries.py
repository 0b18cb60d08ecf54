"""Questions asked of next visits in more than one place. Each is one query."""

from __future__ import annotations

from datetime import date

from django.db.models import Exists, F, OuterRef, Q, SmallIntegerField, Subquery, Value
from django.db.models.functions import Coalesce, Least

from clinic.follow_up.models import FollowUp, FollowUpQuerySet
from clinic.referrals.models import Referral, Urgency
from clinic.referrals.models.referral import RANK, URGENCY_ORDER

#: Urgencies of a plan whose visit no one puts off without a clinician.
PRESSING = (Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE, Urgency.DAYS)

BY_TIME = ("due", F("at").asc(nulls_last=True), "id")


def due(*, clinical: bool) -> FollowUpQuerySet:
    """Visits still to come with whom they are for, by day and time, those without a time last;
    with flags for anyone who sees clinical matters."""
    found = FollowUp.objects.open().select_related("stoma__patient", "set_by__visit")
    found = found.prefetch_related("moves__by", "stoma__patient__telephones").order_by(*BY_TIME)
    if not clinical:
        return found
    return with_weight(found)


def visits_on(day: date) -> int:
    """How many visits still to come are set for ``day``."""
    return FollowUp.objects.open().filter(due=day).count()


def by_danger(rows: FollowUpQuerySet) -> FollowUpQuerySet:
    """The most urgent first, by the plan that asked for the visit or by a referral of the stoma
    without an answer, whichever is more urgent; then as ``BY_TIME``."""
    last = len(URGENCY_ORDER)
    asked = Referral.objects.unanswered().filter(assessment__stoma_id=OuterRef("stoma_id"))
    most = asked.annotate(rank=RANK).order_by("rank").values("rank")[:1]
    rank = Least(RANK, Coalesce(Subquery(most), Value(last, SmallIntegerField())))
    return rows.annotate(rank=rank).order_by("rank", *BY_TIME)


def with_weight(rows: FollowUpQuerySet) -> FollowUpQuerySet:
    """``waits``: a referral of the stoma has no answer yet."""
    unanswered = Referral.objects.unanswered().filter(assessment__stoma_id=OuterRef("stoma_id"))
    return rows.annotate(waits=Exists(unanswered))


def weighs(follow_up: FollowUp) -> bool:
    """Whether a later day needs a nurse's agreement.

    It does where the plan that asked for the visit was urgent, or a referral of the stoma has no
    answer yet.
    """
    found = with_weight(FollowUp.objects.all()).filter(pk=follow_up.pk)
    return found.filter(Q(urgency__in=PRESSING) | Q(waits=True)).exists()
