"""What the nurse made of a care sheet before printing it."""

from django.conf import settings
from django.contrib.postgres.fields import ArrayField
from django.db import models

from clinic.audit.history import tracked
from clinic.visits.models import Assessment
from clinic.visits.models.finality import never_emptied

#: Room for a few sentences; more would be another sheet.
MOST_LETTERS = 400


@tracked()
class SheetEdit(models.Model):
    """One a sheet. It may change after signing, too: the record stays as signed, the sheet is the
    patient's paper, and each printing of it is stored as it was.

    ``order``: keys of the sheet's steps, [] for the plan's own order. ``large``: None is as the
    patient needs it. ``only_changes``: for somebody who changes alone and well, of the steps only
    those that are different today. ``version`` counts up with each save.
    """

    assessment = models.OneToOneField(
        Assessment, on_delete=models.PROTECT, related_name="sheet_edit"
    )
    after_uses = models.CharField("added to what to use", max_length=MOST_LETTERS, blank=True)
    after_steps = models.CharField("added after the steps", max_length=MOST_LETTERS, blank=True)
    hidden = ArrayField(models.CharField(max_length=60), default=list, blank=True)
    order = ArrayField(models.CharField(max_length=60), default=list, blank=True)
    large = models.BooleanField(null=True)
    only_changes = models.BooleanField(default=False)
    version = models.PositiveIntegerField(default=1)
    changed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+"
    )
    changed_at = models.DateTimeField()

    class Meta:
        verbose_name = "edit of a care sheet"
        triggers = [never_emptied("sheet_edit_never_emptied")]

    def __str__(self) -> str:
        return f"Edit of a care sheet {self.pk}"
