"""When to see this stoma again, and why."""

from django.db import models
from django.db.models import Q

from clinic.audit.history import tracked
from clinic.patients.models import Stoma
from clinic.visits.models import Assessment, Visit


class FollowUpQuerySet(models.QuerySet["FollowUp"]):
    def open(self) -> "FollowUpQuerySet":
        """Still to come; a stoma that was closed needs no visit."""
        return self.filter(done_by__isnull=True, stoma__closed_on__isnull=True)


@tracked()
class FollowUp(models.Model):
    """Set when a visit is signed; the next signed visit of the same stoma closes it."""

    stoma = models.ForeignKey(Stoma, on_delete=models.PROTECT, related_name="follow_ups")
    set_by = models.OneToOneField(Assessment, on_delete=models.PROTECT, related_name="follow_up")
    due = models.DateField("next visit")
    reason = models.CharField("why then", max_length=300)
    done_by = models.ForeignKey(
        Visit, on_delete=models.PROTECT, related_name="follow_ups_closed", null=True
    )

    objects = FollowUpQuerySet.as_manager()

    class Meta:
        ordering = ["due", "id"]
        indexes = [
            models.Index(fields=["due"], condition=Q(done_by__isnull=True), name="follow_up_due")
        ]

    def __str__(self) -> str:
        return f"Follow-up {self.pk}"
