"""What left the clinic on paper, exactly as it was printed."""

import uuid

import pgtrigger
from django.conf import settings
from django.db import models
from django.db.models import Q

from clinic.documents.kinds import OF_STOMA, Kind
from clinic.documents.models.rendering import StoredFile
from clinic.patients.models import Patient, Stoma
from clinic.referrals.models import Referral
from clinic.visits.models import Assessment
from clinic.visits.models.finality import never_emptied


class PrintedDocument(models.Model):
    """One printing: whose, what, by whom, and the very bytes. Never changed, never removed.

    ``assessment`` is None for a paper of the stoma alone, such as a diary; ``referral`` is that of
    a letter with its question. ``signed``: whether the visit was when it was printed.
    ``content``: a code of what it says, for a paper given again only when that changes.
    """

    uuid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    kind = models.CharField(max_length=20, choices=Kind.choices)
    detail = models.CharField("which", max_length=200, blank=True)
    patient = models.ForeignKey(Patient, on_delete=models.PROTECT, related_name="+")
    stoma = models.ForeignKey(Stoma, on_delete=models.PROTECT, related_name="printed")
    assessment = models.ForeignKey(
        Assessment, on_delete=models.PROTECT, related_name="printed", null=True
    )
    referral = models.ForeignKey(
        Referral, on_delete=models.PROTECT, related_name="printed", null=True
    )
    signed = models.BooleanField()
    language = models.CharField(max_length=10)
    paper = models.CharField(max_length=10)
    content = models.CharField(max_length=64, blank=True, editable=False)
    file = models.ForeignKey(StoredFile, on_delete=models.PROTECT, related_name="printed")
    printed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+"
    )
    printed_at = models.DateTimeField()

    class Meta:
        verbose_name = "printed document"
        ordering = ["-printed_at", "-id"]
        indexes = [models.Index(fields=["stoma", "-printed_at"], name="printed_by_stoma")]
        constraints = [
            models.CheckConstraint(condition=Q(kind__in=Kind.values), name="printed_kind_known"),
            models.CheckConstraint(
                condition=Q(kind__in=OF_STOMA) | Q(assessment__isnull=False),
                name="printed_about_a_visit",
            ),
        ]
        triggers = [
            pgtrigger.Protect(name="printed_final", operation=pgtrigger.Update | pgtrigger.Delete),
            never_emptied("printed_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Printed document {self.uuid}"

    @property
    def words(self) -> str:
        """Such as *Care sheet, large print*."""
        return ", ".join(filter(None, (self.get_kind_display(), self.detail)))
