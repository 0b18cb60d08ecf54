"""A record that opens only for those who say why: of staff, of their family, or another reason."""

import pgtrigger
from django.conf import settings
from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import Q

from clinic.audit.history import tracked
from clinic.patients.models.fold import known
from clinic.patients.models.none_known import stays_with_patient
from clinic.patients.models.patient import Patient


class Restricted(models.TextChoices):
    """Why a record is restricted."""

    STAFF = "staff", "A member of staff is the patient"
    FAMILY = "family", "Family of a member of staff"
    OTHER = "other", "Another reason"


@tracked()
class Restriction(models.Model):
    """From when until it is lifted; one at a time. Never changed, never removed: only lifted."""

    patient = models.ForeignKey(Patient, models.PROTECT, related_name="restrictions")
    why = models.CharField("why restricted", max_length=10, choices=Restricted)
    words = models.CharField("in words", max_length=150, blank=True)
    set_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    set_at = models.DateTimeField(auto_now_add=True)
    lifted_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, editable=False, related_name="+"
    )
    lifted_at = models.DateTimeField(null=True, editable=False)

    class Meta:
        ordering = ["-set_at", "-id"]
        constraints = [
            models.CheckConstraint(
                condition=known("why", Restricted, blank=False), name="restriction_why_is_known"
            ),
            models.CheckConstraint(
                condition=~Q(why=Restricted.OTHER) | Q(words__regex=r"\S"),
                name="restriction_other_is_said",
            ),
            models.CheckConstraint(
                condition=Q(lifted_by__isnull=True, lifted_at__isnull=True)
                | Q(lifted_by__isnull=False, lifted_at__isnull=False),
                name="restriction_lifted_by_somebody",
            ),
            models.UniqueConstraint(
                fields=["patient"],
                condition=Q(lifted_at__isnull=True),
                name="restriction_one_at_a_time",
            ),
        ]
        triggers = [
            stays_with_patient(),
            pgtrigger.ReadOnly(name="restriction_only_lifted", exclude=["lifted_by", "lifted_at"]),
            pgtrigger.Protect(name="restriction_kept", operation=pgtrigger.Delete),
        ]

    def __str__(self) -> str:
        return f"Restriction {self.pk}"

    def clean(self) -> None:
        if self.why == Restricted.OTHER and not self.words.strip():
            raise ValidationError({"words": "Say why, in a few words."})
