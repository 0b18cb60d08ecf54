"""Pages set once: printed again, they are the very same bytes, and at once."""

from django.db import models
from django.db.models.functions import Now


class Rendering(models.Model):
    """A PDF by what it was made of. Holds nothing that the record does not; may be emptied."""

    key = models.CharField(max_length=64, unique=True)
    pdf = models.BinaryField()
    made_at = models.DateTimeField(db_default=Now(), editable=False)

    class Meta:
        indexes = [models.Index(fields=["made_at"], name="rendering_by_age")]

    def __str__(self) -> str:
        return f"Rendering {self.pk}"
