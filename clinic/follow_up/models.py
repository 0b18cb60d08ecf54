"""When to see this stoma again, and why; and every time that day was moved."""

from datetime import date
from typing import Self

import pgtrigger
from django.conf import settings
from django.db import models
from django.db.models import F, Q, QuerySet

from clinic.audit.history import tracked
from clinic.patients.models import Stoma
from clinic.referrals.models import Urgency
from clinic.visits.models import Assessment, Visit
from clinic.visits.models.finality import never_emptied


class FollowUpQuerySet(QuerySet["FollowUp"]):
    def open(self) -> Self:
        """Still to come; a stoma that was closed needs no visit."""
        return self.filter(done_by__isnull=True, stoma__closed_on__isnull=True)


@tracked()
class FollowUp(models.Model):
    """Set when a visit is signed; the next signed visit of the same stoma closes it.

    ``set_by`` names it in addresses: there is one of each. ``at`` None: no time was agreed.
    ``urgency`` is that of the plan that asked for it, kept here so that a day's list can be put in
    order without reading every plan.
    """

    stoma = models.ForeignKey(Stoma, on_delete=models.PROTECT, related_name="follow_ups")
    set_by = models.OneToOneField(Assessment, on_delete=models.PROTECT, related_name="follow_up")
    due = models.DateField("next visit")
    at = models.TimeField("time of the next visit", null=True, blank=True)
    urgency = models.CharField(
        "urgency of the last plan", max_length=20, choices=Urgency.choices, blank=True
    )
    reason = models.CharField("why then", max_length=300)
    done_by = models.ForeignKey(
        Visit, on_delete=models.PROTECT, related_name="follow_ups_closed", null=True
    )

    objects = FollowUpQuerySet.as_manager()

    class Meta:
        ordering = ["due", "id"]
        indexes = [
            models.Index(
                fields=["due", "id"], condition=Q(done_by__isnull=True), name="follow_up_due"
            )
        ]
        constraints = [
            models.CheckConstraint(
                condition=Q(urgency__in=["", *Urgency.values]), name="follow_up_urgency_known"
            )
        ]

    def __str__(self) -> str:
        return f"Follow-up {self.pk}"

    @property
    def patient(self) -> models.Model:
        """Whose visit it is: for the access log."""
        return self.stoma.patient

    @property
    def asked_for(self) -> date:
        """The day the signed visit asked for, before anybody moved it."""
        moves = list(self.moves.all())
        return moves[0].was if moves else self.due

    @property
    def is_open(self) -> bool:
        return self.done_by_id is None and self.stoma.closed_on is None


class MoveReason(models.TextChoices):
    """Why a day is moved, in words that say nothing clinical: the front desk chooses here too."""

    PATIENT_ASKED = "patient_asked", "The patient asked for another day"
    DID_NOT_COME = "did_not_come", "The patient did not come"
    COULD_NOT_TRAVEL = "could_not_travel", "The patient could not travel"
    AWAY = "away", "The patient is away that day"
    CLINIC_FULL = "clinic_full", "No room in the clinic that day"
    STAFF_AWAY = "staff_away", "No clinic staff that day"
    SOONER = "sooner", "To be seen sooner"
    OTHER = "other", "Another reason"


ANOTHER_TIME = (
    Q(was_at__isnull=True, became_at__isnull=False)
    | Q(was_at__isnull=False, became_at__isnull=True)
    | (Q(was_at__isnull=False, became_at__isnull=False) & ~Q(was_at=F("became_at")))
)


class Move(models.Model):
    """One time the day or its time was moved: from, to, why and by whom. Never changed, never
    removed.

    ``words`` are the clinicians' own and may be clinical: the front desk neither writes nor
    sees them. ``late_confirmed``: later than the signed visit asked for, and confirmed.
    """

    follow_up = models.ForeignKey(FollowUp, on_delete=models.PROTECT, related_name="moves")
    was = models.DateField("from")
    became = models.DateField("to")
    was_at = models.TimeField("from the time", null=True)
    became_at = models.TimeField("to the time", null=True)
    reason = models.CharField("why", max_length=20, choices=MoveReason.choices)
    words = models.CharField("details", max_length=300, blank=True)
    late_confirmed = models.BooleanField(default=False)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField()

    class Meta:
        ordering = ["at", "id"]
        constraints = [
            models.CheckConstraint(
                condition=Q(reason__in=MoveReason.values), name="move_reason_known"
            ),
            models.CheckConstraint(condition=~Q(was=F("became")) | ANOTHER_TIME, name="move_moves"),
        ]
        triggers = [
            pgtrigger.Protect(name="move_final", operation=pgtrigger.Update | pgtrigger.Delete),
            never_emptied("move_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Move {self.pk}"
