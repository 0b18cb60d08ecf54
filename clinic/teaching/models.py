"""One point taught to one person on one day. Entries are added and never changed."""

from uuid import uuid4

import pgtrigger
from django.conf import settings
from django.db import models
from django.db.models import Q

from clinic.patients.models import Stoma
from clinic.patients.models.fold import known
from clinic.teaching.choices import Item, Learner, Level, TeachBack, Withdrawn
from clinic.visits.models import Visit
from clinic.visits.models.finality import never_emptied


class TaughtPoint(models.Model):
    """``learner_name``: who the carer is. ``taught_by``: who taught, as typed; "" the person who
    recorded it. ``visit``: recorded during it. A mistaken entry is withdrawn, not removed."""

    uuid = models.UUIDField(default=uuid4, unique=True, editable=False)
    stoma = models.ForeignKey(Stoma, models.PROTECT, related_name="taught_points")
    visit = models.ForeignKey(
        Visit, models.PROTECT, null=True, blank=True, related_name="taught_points"
    )
    on = models.DateField("Taught on")
    item = models.CharField(max_length=20, choices=Item)
    level = models.PositiveSmallIntegerField(choices=Level)
    learner = models.CharField("Who learned", max_length=10, choices=Learner)
    learner_name = models.CharField("Name of the carer", max_length=100, blank=True)
    teach_back = models.CharField(
        "Said or shown back", max_length=10, choices=TeachBack, blank=True
    )
    words = models.CharField("In their words", max_length=200, blank=True)
    taught_by = models.CharField("Taught by", max_length=100, blank=True)
    recorded_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        verbose_name = "taught point"
        ordering = ["on", "recorded_at", "id"]
        indexes = [models.Index(fields=["stoma", "on"], name="taught_of_stoma")]
        constraints = [
            models.CheckConstraint(
                condition=known("item", Item, blank=False)
                & known("learner", Learner, blank=False)
                & known("teach_back", TeachBack, blank=True)
                & Q(level__in=Level.values),
                name="taught_words_are_known",
            ),
            models.CheckConstraint(
                condition=Q(learner=Learner.PATIENT, learner_name="")
                | Q(learner=Learner.CARER, learner_name__regex=r"\S"),
                name="taught_carer_is_named",
            ),
            models.CheckConstraint(
                condition=~Q(level=Level.CARER_DOES, learner=Learner.CARER),
                name="taught_carer_does_is_of_the_patient",
            ),
        ]
        triggers = [
            pgtrigger.Protect(name="taught_final", operation=pgtrigger.Update | pgtrigger.Delete),
            never_emptied("taught_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Taught point {self.pk}"

    @property
    def patient(self) -> models.Model:
        """Whose it is, for the audit trail."""
        return self.stoma.patient

    @property
    def counts(self) -> bool:
        """Not withdrawn."""
        return not hasattr(self, "withdrawal")

    @property
    def who_learned(self) -> str:
        """``the patient``, or the carer by name."""
        return "the patient" if self.learner == Learner.PATIENT else f"carer {self.learner_name}"

    @property
    def who_taught(self) -> str:
        return self.taught_by or self.recorded_by.display_name

    @property
    def level_words(self) -> str:
        """``Alone (showed it)``."""
        back = TeachBack(self.teach_back).label.lower() if self.teach_back else ""
        return f"{Level(self.level).label} ({back})" if back else str(Level(self.level).label)


class Withdrawal(models.Model):
    """One entry that no longer counts: why, by whom, when."""

    point = models.OneToOneField(TaughtPoint, models.PROTECT, related_name="withdrawal")
    why = models.CharField(max_length=15, choices=Withdrawn)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=known("why", Withdrawn, blank=False), name="withdrawn_why_is_known"
            ),
        ]
        triggers = [
            pgtrigger.Protect(
                name="withdrawal_final", operation=pgtrigger.Update | pgtrigger.Delete
            ),
            never_emptied("withdrawal_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Withdrawal {self.pk}"
