"""What was looked at and found as at the last visit, by one press."""

from django.conf import settings
from django.contrib.postgres.fields import ArrayField
from django.db import models
from django.db.models import Q

from clinic.audit.history import tracked
from clinic.visits.choices import SectionKey
from clinic.visits.models.assessment import Assessment
from clinic.visits.models.finality import OF_ASSESSMENT, final_once_signed, never_emptied


@tracked()
class Confirmation(models.Model):
    """Section ``section`` of ``assessment``, looked at and found as at the assessment ``against``.

    ``fields``: HTML names of what the press recorded; each was empty before, and may have been
    corrected since.
    """

    assessment = models.ForeignKey(
        Assessment, on_delete=models.CASCADE, related_name="confirmations"
    )
    section = models.CharField(max_length=20, choices=SectionKey.choices)
    against = models.ForeignKey(Assessment, on_delete=models.PROTECT, related_name="+")
    fields = ArrayField(models.CharField(max_length=100))
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField()

    class Meta:
        ordering = ["at", "pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(section__in=SectionKey.values), name="confirmation_section_known"
            ),
            models.CheckConstraint(
                condition=~Q(assessment=models.F("against")), name="confirmation_of_another_visit"
            ),
        ]
        triggers = [
            final_once_signed("confirmation_final_once_signed", OF_ASSESSMENT),
            never_emptied("confirmation_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Confirmation {self.pk}"
