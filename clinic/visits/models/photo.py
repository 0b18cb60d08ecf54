"""A picture of the stoma: re-encoded, without metadata, never public; and what it measured."""

import uuid

from django.conf import settings
from django.db import models

from clinic.audit.history import tracked
from clinic.visits.models.assessment import Assessment
from clinic.visits.models.finality import OF_ASSESSMENT, final_once_signed, never_emptied

OF_PHOTO = (
    "SELECT a.visit_id FROM visits_assessment a JOIN visits_photo p ON p.assessment_id = a.id "
    "WHERE p.id = touched.photo_id"
)


class PhotoManager(models.Manager["Photo"]):
    """A list of photos fetches no pictures: megabytes come only where one is shown."""

    def get_queryset(self) -> models.QuerySet["Photo"]:
        return super().get_queryset().defer("image", "thumbnail").select_related("measured")


@tracked(exclude=["image", "thumbnail"])
class Photo(models.Model):
    """The picture lives in the record's own database, under the same rules and backups.

    ``thumbnail`` is a small JPEG of it; NULL in rows older than the column, which nothing may
    change once signed: their small picture is made when it is asked for.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    assessment = models.ForeignKey(Assessment, on_delete=models.CASCADE, related_name="photos")
    image = models.BinaryField()
    thumbnail = models.BinaryField(null=True)
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    caption = models.CharField("Caption", max_length=200, blank=True)
    taken_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+"
    )
    at = models.DateTimeField(auto_now_add=True)

    objects = PhotoManager()

    class Meta:
        ordering = ["at"]
        constraints = [
            models.CheckConstraint(
                condition=~models.Q(image=b"") & models.Q(width__gt=0, height__gt=0),
                name="photo_not_empty",
            ),
            models.CheckConstraint(
                condition=models.Q(thumbnail__isnull=True) | ~models.Q(thumbnail=b""),
                name="photo_thumbnail_not_empty",
            ),
        ]
        triggers = [
            final_once_signed("photo_final_once_signed", OF_ASSESSMENT),
            never_emptied("photo_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Photo {self.pk}"


@tracked()
class PhotoMeasurement(models.Model):
    """What was marked on a photo and what came of it, so that it can be worked out again.

    Measuring again replaces the row; the earlier one stays in the history. ``marks`` are in pixels
    of the stored picture, lengths in ``result`` in mm, each with its error either way.
    ``recorded_is_right``: the size on record, as ``44 × 40``, that somebody said is right though
    the photo contradicts it; "" where no one was asked.
    """

    photo = models.OneToOneField(Photo, on_delete=models.CASCADE, related_name="measured")
    marks = models.JSONField()
    result = models.JSONField()
    rule_set = models.CharField("Measured by the rules of", max_length=20)
    recorded_is_right = models.CharField(max_length=30, blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        verbose_name = "measuring on a photo"
        triggers = [
            final_once_signed("photo_measurement_final_once_signed", OF_PHOTO),
            never_emptied("photo_measurement_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Measured on photo {self.photo_id}"
