"""Keep in view what a draft's plan finds dangerous, until somebody signs it."""

from django.utils import timezone

from clinic.plans.models import Alarm
from clinic.plans.models.alarm import PRESSING
from clinic.visits.models import Assessment
from planning import Plan


def raise_alarm(assessment: Assessment, plan: Plan | None) -> None:
    """Note the danger ``plan`` finds, or that it finds none. Without a plan, findings that
    contradict one another, what was known before stands."""
    if plan is None:
        return
    if plan.urgency.value not in PRESSING:
        Alarm.objects.filter(assessment=assessment).delete()
        return
    values = {"urgency": plan.urgency.value, "headline": plan.headline}
    Alarm.objects.update_or_create(
        assessment=assessment,
        defaults=values,
        create_defaults={**values, "since": timezone.now()},
    )


def end_alarm(assessment: Assessment) -> None:
    """The visit is signed: its referrals say it now."""
    Alarm.objects.filter(assessment=assessment).delete()
