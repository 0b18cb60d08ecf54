"""A reminder: of whom, for which day, for one member of staff or for all, done or not."""

from uuid import uuid4

import pgtrigger
from django.conf import settings
from django.db import models
from django.db.models import F, Q

from clinic.audit.history import tracked
from clinic.patients.models import Patient, Stoma
from clinic.patients.models.none_known import stays_with_patient

OTHER_NEEDS_WORDS = "Say what is to be done."


class TaskKind(models.TextChoices):
    SUPPLIES = "supplies", "Ordered supplies"
    RESULTS = "results", "Awaited results"
    CALL = "call", "A call to make"
    OTHER = "other", "Other"


STOMA_OF_PATIENT = pgtrigger.Trigger(
    name="task_stoma_of_patient",
    when=pgtrigger.Before,
    operation=pgtrigger.Insert | pgtrigger.Update,
    condition=pgtrigger.Q(new__stoma__isnull=False),
    func="""
        IF NOT EXISTS (
            SELECT 1 FROM patients_stoma
            WHERE id = NEW.stoma_id AND patient_id = NEW.patient_id
        ) THEN
            RAISE EXCEPTION 'a task about somebody else''s stoma'
                USING ERRCODE = 'check_violation';
        END IF;
        RETURN NEW;
    """,
)


@tracked()
class Task(models.Model):
    """``for_whom``: the person it is for; null, for everyone who keeps tasks.

    ``once``: made where it was typed, so that a page sent twice makes one. ``version``: how often
    it was changed; a press made from an older page changes nothing.
    """

    uuid = models.UUIDField(default=uuid4, unique=True, editable=False)
    once = models.UUIDField(unique=True, editable=False)
    version = models.PositiveIntegerField(default=0)
    patient = models.ForeignKey(Patient, models.PROTECT, related_name="tasks")
    stoma = models.ForeignKey(Stoma, models.PROTECT, related_name="tasks", null=True, blank=True)
    day = models.DateField()
    kind = models.CharField(max_length=10, choices=TaskKind)
    words = models.CharField(max_length=300, blank=True)
    for_whom = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", null=True, blank=True
    )
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    made_at = models.DateTimeField()
    done_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", null=True, blank=True
    )
    done_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["day", "id"]
        indexes = [
            models.Index(fields=["day", "id"], condition=Q(done_at__isnull=True), name="task_open"),
            models.Index(fields=["done_at"], name="task_done"),
        ]
        constraints = [
            models.CheckConstraint(
                condition=Q(kind__in=TaskKind.values), name="task_kind_is_known"
            ),
            models.CheckConstraint(
                condition=~Q(kind=TaskKind.OTHER) | Q(words__regex=r"\S"),
                name="task_other_has_words",
            ),
            models.CheckConstraint(
                condition=Q(done_by__isnull=True, done_at__isnull=True)
                | Q(done_by__isnull=False, done_at__gte=F("made_at")),
                name="task_done_by_somebody",
            ),
        ]
        triggers = [
            STOMA_OF_PATIENT,
            stays_with_patient(),
            pgtrigger.Protect(name="task_is_kept", operation=pgtrigger.Delete),
        ]

    def __str__(self) -> str:
        return f"Task {self.pk}"

    @property
    def is_open(self) -> bool:
        return self.done_at is None
