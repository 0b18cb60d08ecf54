"""The access log. A row names what happened in words and ids, never by foreign key. Each row
has its link in a chain, which shows a row that was changed or taken out."""

import pgtrigger
from django.db import models
from django.db.models.functions import Now


class AccessLog(models.Model):
    """One thing one person did or saw. The database refuses to change or delete it."""

    at = models.DateTimeField(db_default=Now(), editable=False)
    actor_id = models.BigIntegerField(null=True)
    actor_words = models.CharField(max_length=240)
    action = models.CharField(max_length=60)
    subject_kind = models.CharField(max_length=60)
    subject_uuid = models.UUIDField(null=True)
    patient_uuid = models.UUIDField(null=True)
    remote_address = models.GenericIPAddressField(null=True)
    detail = models.CharField(max_length=240, blank=True)

    class Meta:
        ordering = ["-at", "-id"]
        indexes = [
            models.Index(fields=["patient_uuid", "-at"], name="access_by_patient"),
            models.Index(fields=["actor_id", "-at"], name="access_by_actor"),
            models.Index(fields=["-at", "-id"], name="access_by_time"),
        ]
        triggers = [
            pgtrigger.Protect(name="append_only", operation=pgtrigger.Update | pgtrigger.Delete),
        ]

    def __str__(self) -> str:
        return f"{self.actor_words} {self.action} {self.subject_kind}"


class AccessLink(models.Model):
    """One row's place in the chain. Only the database writes it, when the row is committed
    (migration 0002); ``clinic.audit.chain`` says what the hash is made of."""

    number = models.BigIntegerField(primary_key=True)
    entry = models.OneToOneField(AccessLog, on_delete=models.PROTECT, related_name="link")
    hash = models.CharField(max_length=64)

    class Meta:
        ordering = ["number"]
        constraints = [
            models.CheckConstraint(condition=models.Q(number__gte=1), name="chain_from_one"),
        ]
        triggers = [
            pgtrigger.Protect(name="append_only", operation=pgtrigger.Update | pgtrigger.Delete),
        ]

    def __str__(self) -> str:
        return f"{self.number} {self.hash}"
