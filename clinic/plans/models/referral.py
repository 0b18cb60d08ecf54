"""A question to a surgeon or another clinician, and the answer."""

import uuid

from django.conf import settings
from django.db import models
from django.db.models import Q

from clinic.audit.history import tracked
from clinic.visits.models import Assessment


class Urgency(models.TextChoices):
    """How soon someone must look; values are the planner's own."""

    EMERGENCY = "emergency", "Emergency, now"
    SAME_DAY = "same_day", "Same day"
    DAYS = "days", "Within 1 to 3 days"
    TWO_WEEKS = "two_weeks", "Within 2 weeks"
    ROUTINE = "routine", "Routine"


URGENCY_ORDER = {value: rank for rank, value in enumerate(Urgency.values)}


class ReferralQuerySet(models.QuerySet["Referral"]):
    def unanswered(self) -> "ReferralQuerySet":
        return self.filter(answered_at__isnull=True)

    def answered_unread(self, sender_id: int | None) -> "ReferralQuerySet":
        """Answers that whoever asked has not opened yet."""
        return self.filter(
            made_by_id=sender_id, answered_at__isnull=False, answer_read_at__isnull=True
        )


@tracked()
class Referral(models.Model):
    """Made when a visit with a red flag is signed; ``flag_key`` is the planner's."""

    uuid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    assessment = models.ForeignKey(Assessment, on_delete=models.PROTECT, related_name="referrals")
    flag_key = models.CharField(max_length=120)
    to = models.CharField("to", max_length=200)
    urgency = models.CharField(max_length=20, choices=Urgency.choices)
    question = models.TextField("question")
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+"
    )
    answer = models.TextField("answer", blank=True)
    answered_at = models.DateTimeField(null=True)
    answered_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+", null=True
    )

    answer_read_at = models.DateTimeField(null=True, help_text="When its sender read the answer.")

    objects = ReferralQuerySet.as_manager()

    class Meta:
        ordering = ["-made_at"]
        constraints = [
            models.CheckConstraint(
                condition=Q(urgency__in=Urgency.values), name="referral_urgency_known"
            ),
            models.CheckConstraint(
                condition=Q(answered_at__isnull=True, answered_by__isnull=True, answer="")
                | (Q(answered_at__isnull=False, answered_by__isnull=False) & ~Q(answer="")),
                name="referral_answer_whole",
            ),
            models.UniqueConstraint(fields=["assessment", "flag_key"], name="one_referral_a_flag"),
        ]

    def __str__(self) -> str:
        return f"Referral {self.uuid}"
