"""Questions asked of plans in more than one place. Each is one query."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, time

from django.db.models import Exists, OuterRef, Q, QuerySet
from django.db.models.fields.json import KeyTextTransform
from django.utils import timezone

from clinic.accounts.models import User
from clinic.plans.models import Alarm, FollowUp, Referral, Urgency
from clinic.plans.models.alarm import AlarmQuerySet
from clinic.plans.models.follow_up import FollowUpQuerySet
from clinic.plans.models.referral import ReferralQuerySet
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment

#: Urgencies of a plan whose visit nobody puts off without a clinician.
PRESSING = (Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.DAYS)
#: A count beyond this says *more than*: nobody needs the number, and counting takes time.
COUNT_UP_TO = 999


@dataclass(frozen=True)
class Count:
    """How many, as far as was counted."""

    number: int

    @property
    def more(self) -> bool:
        return self.number > COUNT_UP_TO

    def __bool__(self) -> bool:
        return self.number > 0

    def __str__(self) -> str:
        return f"more than {COUNT_UP_TO}" if self.more else str(self.number)


def counted(rows: QuerySet[FollowUp] | QuerySet[Referral] | QuerySet[Alarm]) -> Count:
    """At most one more than ``COUNT_UP_TO`` is looked at."""
    return Count(rows.order_by()[: COUNT_UP_TO + 1].count())


def day_began(today: date) -> datetime:
    """The first moment of ``today`` in the clinic's time zone."""
    return datetime.combine(today, time.min, timezone.get_current_timezone())


def for_list(rows: ReferralQuerySet) -> ReferralQuerySet:
    """With all that a list of referrals shows."""
    return rows.select_related(
        "assessment__visit__patient", "assessment__stoma", "made_by", "answered_by", "seen_by"
    )


def waiting() -> ReferralQuerySet:
    """Referrals without an answer, most urgent first, then the oldest."""
    return for_list(Referral.objects.unanswered().urgent_first())


def asked_of(surgeon: User) -> Q:
    """Referrals to a surgeon, or to this one by name. The words are whoever asked's own, so what
    does not fit is *asked of others*, never nobody's."""
    fits = Q(to__icontains="surgeon") | Q(to__icontains="surgical")
    return fits | Q(to__icontains=surgeon.last_name) if surgeon.last_name else fits


def answered() -> ReferralQuerySet:
    """Answered ones, the latest answer first."""
    found = Referral.objects.filter(answered_at__isnull=False)
    return for_list(found.order_by("-answered_at", "-id"))


def pressing(today: date) -> ReferralQuerySet:
    """What must not sit unseen: emergencies, and same-day questions past their day."""
    return Referral.objects.pressing(day_began(today)).urgent_first()


def alarms() -> AlarmQuerySet:
    """Dangers found in visits that are not signed: nobody has been asked yet."""
    return Alarm.objects.standing()


def due(*, clinical: bool) -> FollowUpQuerySet:
    """Visits still to come with whom they are for; with flags for whoever sees clinical matters."""
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
    """Whether a later day is for a nurse to agree to: the plan that asked for the visit was
    pressing, or a referral of the stoma has no answer yet."""
    found = with_weight(FollowUp.objects.all()).filter(pk=follow_up.pk)
    return found.filter(Q(urgency__in=PRESSING) | Q(waits=True)).exists()


def begun(stomas: Iterable[int]) -> set[int]:
    """Those of ``stomas`` whose visit is begun and not signed yet."""
    drafts = Assessment.objects.filter(stoma_id__in=set(stomas), visit__state=VisitState.DRAFT)
    return set(drafts.values_list("stoma_id", flat=True))


def about_patient(rows: ReferralQuerySet, patients: Iterable[int]) -> ReferralQuerySet:
    """Only those about one of ``patients``."""
    return rows.filter(Q(assessment__visit__patient_id__in=list(patients)))
