"""Files kept by their own content, and which page each was set from."""

import pgtrigger
from django.db import models
from django.db.models import Q
from django.db.models.functions import Now


class StoredFile(models.Model):
    """The bytes of a PDF, once however often they were printed. Never changed; one that was
    printed cannot go (``PrintedDocument`` holds on to it)."""

    sha256 = models.CharField(max_length=64, unique=True)
    pdf = models.BinaryField()
    made_at = models.DateTimeField(db_default=Now(), editable=False)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(sha256__regex=r"^[0-9a-f]{64}$"), name="stored_file_named_by_content"
            )
        ]
        triggers = [pgtrigger.Protect(name="stored_file_unchanged", operation=pgtrigger.Update)]

    def __str__(self) -> str:
        return f"Stored file {self.pk}"


class Rendering(models.Model):
    """Which file a page was set as: set once, printed again at once. A memory; may be emptied."""

    key = models.CharField(max_length=64, unique=True)
    file = models.ForeignKey(StoredFile, on_delete=models.PROTECT, related_name="renderings")
    made_at = models.DateTimeField(db_default=Now(), editable=False)

    class Meta:
        indexes = [models.Index(fields=["made_at"], name="rendering_by_age")]

    def __str__(self) -> str:
        return f"Rendering {self.pk}"
