"""Keep in view what a draft's plan finds dangerous, until somebody signs it."""

from django.utils import timezone

from clinic.referrals.models import Alarm
from clinic.referrals.models.alarm import PRESSING
from clinic.visits.models import Assessment


def raise_alarm(assessment: Assessment, *, urgency: str, headline: str) -> None:
    """Note the danger that a draft's plan finds, or that it finds none."""
    if urgency not in PRESSING:
        Alarm.objects.filter(assessment=assessment).delete()
        return
    values = {"urgency": urgency, "headline": headline}
    Alarm.objects.update_or_create(
        assessment=assessment,
        defaults=values,
        create_defaults={**values, "since": timezone.now()},
    )


def end_alarm(assessment: Assessment) -> None:
    """The visit is signed: its referrals say it now."""
    Alarm.objects.filter(assessment=assessment).delete()
