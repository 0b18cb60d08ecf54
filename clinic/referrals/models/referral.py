"""A question to a surgeon or another clinician, and the answer."""

import uuid
from datetime import datetime, timedelta
from typing import Self

from django.conf import settings
from django.db import models
from django.db.models import Case, Q, QuerySet, Value, When
from django.utils import timezone

from clinic.audit.history import tracked
from clinic.visits.models import Assessment


class Urgency(models.TextChoices):
    """How soon someone must look; values are the planner's own."""

    EMERGENCY = "emergency", "Emergency, now"
    SAME_DAY = "same_day", "Same day"
    TELEPHONE = "telephone", "By telephone today"
    DAYS = "days", "Within 3 days"
    TWO_WEEKS = "two_weeks", "Within 2 weeks"
    ROUTINE = "routine", "Routine"


class CameBy(models.TextChoices):
    """How an answer reached the clinic that was not written in the record by who gave it."""

    TELEPHONE = "telephone", "By telephone"
    LETTER = "letter", "By letter"


URGENCY_ORDER = {value: rank for rank, value in enumerate(Urgency.values)}
#: Days an answer may take by the very words of the urgency; an emergency takes none, and what
#: is routine is never late.
DAYS_TO_ANSWER = {
    Urgency.EMERGENCY: 0,
    Urgency.SAME_DAY: 0,
    Urgency.TELEPHONE: 0,
    Urgency.DAYS: 3,
    Urgency.TWO_WEEKS: 14,
    Urgency.ROUTINE: None,
}
#: Asked for today: without an answer tomorrow somebody has to be called.
TODAY = (Urgency.SAME_DAY, Urgency.TELEPHONE)
RANK = Case(
    *(When(urgency=value, then=Value(rank)) for value, rank in URGENCY_ORDER.items()),
    default=Value(len(URGENCY_ORDER)),
    output_field=models.SmallIntegerField(),
)


class ReferralQuerySet(QuerySet["Referral"]):
    def unanswered(self) -> Self:
        return self.filter(answered_at__isnull=True)

    def urgent_first(self) -> Self:
        """Most urgent first, then the one that waits longest."""
        return self.order_by(RANK, "made_at", "id")

    def pressing(self, today_began: datetime) -> Self:
        """Without an answer though an emergency, or asked for or to be telephoned about on a day
        before today."""
        return self.unanswered().filter(
            Q(urgency=Urgency.EMERGENCY) | Q(made_at__lt=today_began),
            urgency__in=[Urgency.EMERGENCY, *TODAY],
        )

    def answered_unread(self, sender_id: int | None) -> Self:
        """Unread answers."""
        return self.filter(
            made_by_id=sender_id, answered_at__isnull=False, answer_read_at__isnull=True
        )


@tracked()
class Referral(models.Model):
    """Made when a visit with a red flag is signed, or by a clinician on their own.

    ``flag_key`` is the planner's, "" where it comes from no red flag. ``seen_by`` is the
    first of those who may answer to open it; seeing is not answering. An answer that came from
    outside the record has ``answer_from`` and ``came_by``; ``answered_by`` then recorded it.
    """

    uuid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    assessment = models.ForeignKey(Assessment, on_delete=models.PROTECT, related_name="referrals")
    flag_key = models.CharField(max_length=120, blank=True)
    to = models.CharField("to", max_length=200)
    urgency = models.CharField(max_length=20, choices=Urgency.choices)
    question = models.TextField("question")
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+"
    )
    seen_at = models.DateTimeField("first opened", null=True)
    seen_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+", null=True
    )
    answer = models.TextField("answer", blank=True)
    answered_at = models.DateTimeField(null=True)
    answered_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+", null=True
    )

    answer_from = models.CharField(
        "from whom", max_length=200, blank=True, help_text="Who answered outside the record."
    )
    came_by = models.CharField("how it came", max_length=20, choices=CameBy.choices, blank=True)
    answer_read_at = models.DateTimeField(null=True, help_text="When its sender read the answer.")

    objects = ReferralQuerySet.as_manager()

    class Meta:
        ordering = ["-made_at"]
        indexes = [
            models.Index(
                RANK,
                "made_at",
                "id",
                condition=Q(answered_at__isnull=True),
                name="referral_waiting",
            ),
            models.Index(
                fields=["urgency", "made_at"],
                condition=Q(
                    answered_at__isnull=True, urgency__in=["emergency", "same_day", "telephone"]
                ),
                name="referral_pressing",
            ),
            models.Index(
                fields=["-answered_at"],
                condition=Q(answered_at__isnull=False),
                name="referral_answered",
            ),
            models.Index(
                fields=["made_by", "-answered_at"],
                condition=Q(answered_at__isnull=False, answer_read_at__isnull=True),
                name="referral_answer_unread",
            ),
        ]
        constraints = [
            models.CheckConstraint(
                condition=Q(urgency__in=Urgency.values), name="referral_urgency_known"
            ),
            models.CheckConstraint(
                condition=Q(answered_at__isnull=True, answered_by__isnull=True, answer="")
                | (Q(answered_at__isnull=False, answered_by__isnull=False) & ~Q(answer="")),
                name="referral_answer_whole",
            ),
            models.CheckConstraint(
                condition=Q(answer_from="", came_by="")
                | (Q(came_by__in=CameBy.values, answered_at__isnull=False) & ~Q(answer_from="")),
                name="referral_answer_received_whole",
            ),
            models.CheckConstraint(
                condition=Q(seen_at__isnull=True, seen_by__isnull=True)
                | Q(seen_at__isnull=False, seen_by__isnull=False),
                name="referral_seen_by_and_when",
            ),
            models.CheckConstraint(
                condition=~Q(question="") & ~Q(to=""), name="referral_asks_somebody_something"
            ),
            models.UniqueConstraint(
                fields=["assessment", "flag_key"],
                condition=~Q(flag_key=""),
                name="one_referral_a_flag",
            ),
        ]

    def __str__(self) -> str:
        return f"Referral {self.uuid}"

    @property
    def asks(self) -> str:
        """The question itself: the first line, without the figures that go with it."""
        return self.question.split("\n", 1)[0].strip()

    @property
    def pressing(self) -> bool:
        """No answer yet to what was asked for now or today: somebody has to be called."""
        urgent = self.urgency in (Urgency.EMERGENCY, *TODAY)
        return urgent and self.answered_at is None

    @property
    def who_answered(self) -> str:
        """Who answered; for an answer from outside also who recorded it and how it came."""
        if self.answered_by is None:
            return ""
        name = self.answered_by.display_name
        if not self.came_by:
            return name
        came = str(CameBy(self.came_by).label).lower()
        return f"{self.answer_from}; recorded by {name}, came {came}"

    @property
    def patient(self) -> models.Model:
        """Whose question it is: for the access log."""
        return self.assessment.visit.patient

    def late_by(self, now: datetime) -> timedelta | None:
        """How long an answer is overdue for its urgency; None while it is not, or was given."""
        days = DAYS_TO_ANSWER[Urgency(self.urgency)]
        if self.answered_at is not None or days is None:
            return None
        if self.urgency == Urgency.EMERGENCY:
            return now - self.made_at
        made, today = timezone.localdate(self.made_at), timezone.localdate(now)
        over = (today - made).days - days
        return timedelta(days=over) if over > 0 else None
