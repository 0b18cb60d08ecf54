"""A picture of the stoma: re-encoded, without metadata, never public."""

import uuid

from django.conf import settings
from django.db import models

from clinic.audit.history import tracked
from clinic.visits.models.assessment import Assessment
from clinic.visits.models.finality import OF_ASSESSMENT, final_once_signed, never_emptied


@tracked(exclude=["image"])
class Photo(models.Model):
    """The picture lives in the record's own database, under the same rules and backups."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    assessment = models.ForeignKey(Assessment, on_delete=models.CASCADE, related_name="photos")
    image = models.BinaryField()
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    caption = models.CharField("Caption", max_length=200, blank=True)
    taken_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+"
    )
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["at"]
        constraints = [
            models.CheckConstraint(
                condition=~models.Q(image=b"") & models.Q(width__gt=0, height__gt=0),
                name="photo_not_empty",
            )
        ]
        triggers = [
            final_once_signed("photo_final_once_signed", OF_ASSESSMENT),
            never_emptied("photo_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Photo {self.pk}"
