"""One form that was sent and carried out."""

from django.conf import settings
from django.db import models
from django.utils import timezone


class SentForm(models.Model):
    """``key`` was made with the page. ``said``: a keyed hash of what was sent, nothing readable."""

    key = models.UUIDField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="+")
    said = models.CharField(max_length=64)
    leads_to = models.CharField(max_length=500, blank=True)
    at = models.DateTimeField(default=timezone.now, db_index=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["key", "by"], name="a_form_is_sent_once")]

    def __str__(self) -> str:
        return f"Sent form {self.pk}"
