"""What is written once beside a visit: never changed, withdrawn with a reason where wrong."""

from uuid import uuid4

import pgtrigger
from django.conf import settings
from django.db import models
from django.db.models import Q

from clinic.patients.models.fold import known
from clinic.visits.models.assessment import Assessment
from clinic.visits.models.finality import never_emptied

WITHDRAWAL = ["withdrawn_at", "withdrawn_by", "withdrawn_why"]


class KeptRecord(models.Model):
    """``uuid`` is made with the page, so that a page sent twice makes one row. Of a withdrawn one
    all three ``WITHDRAWAL`` columns are filled; each kind has its own reasons."""

    uuid = models.UUIDField(default=uuid4, unique=True, editable=False)
    assessment = models.ForeignKey(Assessment, models.PROTECT, related_name="%(class)s_rows")
    recorded_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    recorded_at = models.DateTimeField()
    withdrawn_at = models.DateTimeField(null=True, blank=True, editable=False)
    withdrawn_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", null=True, blank=True,
        editable=False,
    )  # fmt: skip

    class Meta:
        abstract = True

    @property
    def patient(self) -> models.Model:
        """Whose it is, for the audit trail."""
        return self.assessment.visit.patient


def withdrawn_whole(reasons: type[models.TextChoices], name: str) -> models.CheckConstraint:
    """When, by whom and why, or none of them."""
    return models.CheckConstraint(
        condition=Q(withdrawn_at__isnull=True, withdrawn_by__isnull=True, withdrawn_why="")
        | Q(withdrawn_at__isnull=False, withdrawn_by__isnull=False)
        & known("withdrawn_why", reasons, blank=False),
        name=name,
    )


def kept(name: str) -> list[pgtrigger.Trigger]:
    """Nothing but the withdrawal is ever written to, and that once."""
    return [
        pgtrigger.ReadOnly(name=f"{name}_only_withdrawn", exclude=WITHDRAWAL),
        pgtrigger.Protect(
            name=f"{name}_withdrawn_once",
            operation=pgtrigger.Update,
            condition=pgtrigger.Q(old__withdrawn_at__isnull=False),
        ),
        pgtrigger.Protect(name=f"{name}_kept", operation=pgtrigger.Delete),
        never_emptied(f"{name}_never_emptied"),
    ]
