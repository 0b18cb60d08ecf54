"""What was typed and cannot be stored in its column yet: kept as typed until it can."""

from django.conf import settings
from django.db import models

from clinic.visits.models.assessment import Assessment


class PendingEntry(models.Model):
    """One form of a draft that does not hold together yet, exactly as typed.

    ``prefix`` names the form on the page, ``data`` maps field names to lists of strings.
    """

    assessment = models.ForeignKey(Assessment, on_delete=models.CASCADE, related_name="pending")
    prefix = models.CharField(max_length=120)
    data = models.JSONField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["assessment", "prefix"], name="one_pending_a_form")
        ]

    def __str__(self) -> str:
        return f"Pending {self.prefix}"


class ConflictCopy(models.Model):
    """A save that came too late, after another's or after the signature: kept whole until its
    author has chosen, field by field, or has read it."""

    assessment = models.ForeignKey(
        Assessment, on_delete=models.CASCADE, related_name="conflict_copies"
    )
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)
    base_version = models.PositiveIntegerField()
    #: The open page that sent it; NULL from a page without scripts.
    page = models.UUIDField(null=True)
    data = models.JSONField()

    class Meta:
        ordering = ["at"]

    def __str__(self) -> str:
        return f"Conflict copy {self.pk}"
