"""Danger found in a visit that no one has signed yet: no referral exists, so it is named here."""

from django.db import models
from django.db.models import Q

from clinic.referrals.models.referral import TODAY, Referral, Urgency
from clinic.visits.models import Assessment

PRESSING = (Urgency.EMERGENCY.value, *(urgency.value for urgency in TODAY))


class AlarmQuerySet(models.QuerySet["Alarm"]):
    def standing(self) -> "AlarmQuerySet":
        """Of visits still unfinished and of which no one was asked, the most urgent and then the
        oldest first."""
        rank = models.Case(
            models.When(urgency=Urgency.EMERGENCY, then=0),
            models.When(urgency=Urgency.SAME_DAY, then=1),
            default=2,
            output_field=models.IntegerField(),
        )
        asked = Referral.objects.filter(
            assessment_id=models.OuterRef("assessment_id"), urgency__in=PRESSING
        )
        unfinished = self.filter(~models.Exists(asked), assessment__visit__state="draft")
        return unfinished.order_by(rank, "since")


class Alarm(models.Model):
    """Follows from the draft's findings at its last save; gone when they no longer say so, and
    when the visit is signed, which makes the referral."""

    assessment = models.OneToOneField(Assessment, on_delete=models.CASCADE, related_name="alarm")
    urgency = models.CharField(max_length=20)
    headline = models.TextField()
    since = models.DateTimeField()

    objects = AlarmQuerySet.as_manager()

    class Meta:
        constraints = [
            models.CheckConstraint(condition=Q(urgency__in=PRESSING), name="alarm_presses")
        ]

    def __str__(self) -> str:
        return f"Alarm {self.pk}"
