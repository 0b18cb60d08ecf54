"""Questions asked of referrals and alarms in more than one place. Each is one query."""

from collections.abc import Iterable
from datetime import date, datetime, time, timedelta

from django.db.models import Q
from django.utils import timezone

from clinic.accounts.models import User
from clinic.referrals.models import Alarm, Referral
from clinic.referrals.models.alarm import AlarmQuerySet
from clinic.referrals.models.referral import DAYS_TO_ANSWER, ReferralQuerySet, Urgency


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
    """Referrals to a surgeon, or to this one by name. The words are the sender's own, so what
    does not fit is *asked of others*, never left out."""
    fits = Q(to__icontains="surgeon") | Q(to__icontains="surgical")
    return fits | Q(to__icontains=surgeon.last_name) if surgeon.last_name else fits


def answered() -> ReferralQuerySet:
    """Answered ones, the latest answer first."""
    found = Referral.objects.filter(answered_at__isnull=False)
    return for_list(found.order_by("-answered_at", "-id"))


def pressing(today: date) -> ReferralQuerySet:
    """What must not sit unseen: emergencies, and questions for the day (a visit or a call)
    past it."""
    return Referral.objects.pressing(day_began(today)).urgent_first()


def late(today: date) -> ReferralQuerySet:
    """Without an answer though its urgency asked for one by now, the most urgent first: what
    ``Referral.late_by`` says of one, asked of all."""
    over = Q()
    for urgency, days in DAYS_TO_ANSWER.items():
        if urgency == Urgency.EMERGENCY:
            over |= Q(urgency=urgency)
        elif days is not None:
            over |= Q(urgency=urgency, made_at__lt=day_began(today - timedelta(days=days)))
    return Referral.objects.unanswered().filter(over).urgent_first()


def alarms() -> AlarmQuerySet:
    """Dangers found in visits that are not signed: no one has been asked yet."""
    return Alarm.objects.standing()


def about_patient(rows: ReferralQuerySet, patients: Iterable[int]) -> ReferralQuerySet:
    """Only those about one of ``patients``."""
    return rows.filter(Q(assessment__visit__patient_id__in=list(patients)))
