"""A stoma: what kind, where, since when. A person may have several, at once or in turn."""

from uuid import uuid4

import pgtrigger
from django.core.exceptions import ValidationError
from django.db import models
from django.utils import timezone

from clinic import formatting
from clinic.audit.history import tracked
from clinic.patients.models.fold import known
from clinic.patients.models.none_known import stays_with_patient
from clinic.patients.models.patient import Patient


class StomaKind(models.TextChoices):
    ILEOSTOMY = "ileostomy", "Ileostomy"
    JEJUNOSTOMY = "jejunostomy", "Jejunostomy"
    COLOSTOMY = "colostomy", "Colostomy"
    UROSTOMY = "urostomy", "Urostomy"


class Construction(models.TextChoices):
    END = "end", "End"
    LOOP = "loop", "Loop"
    DOUBLE_BARREL = "double-barrel", "Double-barrel"


class Site(models.TextChoices):
    """Patient's right and left."""

    RIGHT_LOWER = "right lower", "Right lower"
    LEFT_LOWER = "left lower", "Left lower"
    RIGHT_UPPER = "right upper", "Right upper"
    LEFT_UPPER = "left upper", "Left upper"
    UMBILICAL = "umbilical", "Umbilical"


class Permanence(models.TextChoices):
    TEMPORARY = "temporary", "Temporary"
    PERMANENT = "permanent", "Permanent"
    UNKNOWN = "unknown", "Not known"


SURGERY_AFTER_BIRTH = pgtrigger.Trigger(
    name="surgery_after_birth",
    when=pgtrigger.Before,
    operation=pgtrigger.Insert | pgtrigger.Update,
    func="""
        IF NEW.surgery_date IS NOT NULL AND NEW.surgery_date < (
            SELECT date_of_birth FROM patients_patient WHERE id = NEW.patient_id
        ) THEN
            RAISE EXCEPTION 'surgery date is before the date of birth'
                USING ERRCODE = 'check_violation';
        END IF;
        RETURN NEW;
    """,
)


@tracked()
class Stoma(models.Model):
    """One stoma. Closed means reversed or removed: it keeps its record and takes no new visit.

    A date of surgery is given, or marked as unknown; it is never merely missing.
    """

    uuid = models.UUIDField(default=uuid4, unique=True, editable=False)
    patient = models.ForeignKey(Patient, models.PROTECT, related_name="stomas")
    kind = models.CharField(max_length=12, choices=StomaKind)
    construction = models.CharField(max_length=15, choices=Construction)
    site = models.CharField(max_length=12, choices=Site)
    surgery_date = models.DateField(null=True, blank=True)
    surgery_date_unknown = models.BooleanField(default=False)
    permanence = models.CharField(max_length=10, choices=Permanence)
    indication = models.CharField(max_length=200, blank=True)
    surgeon = models.CharField(max_length=100, blank=True)
    closed_on = models.DateField(null=True, blank=True)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = [models.F("closed_on").asc(nulls_first=True), "surgery_date", "id"]
        constraints = [
            models.CheckConstraint(
                condition=known("kind", StomaKind, blank=False)
                & known("construction", Construction, blank=False)
                & known("site", Site, blank=False)
                & known("permanence", Permanence, blank=False),
                name="stoma_words_are_known",
            ),
            models.CheckConstraint(
                condition=models.Q(surgery_date__isnull=False, surgery_date_unknown=False)
                | models.Q(surgery_date__isnull=True, surgery_date_unknown=True),
                name="stoma_surgery_dated_or_unknown",
            ),
            models.CheckConstraint(
                condition=models.Q(closed_on__isnull=True)
                | models.Q(surgery_date__isnull=True)
                | models.Q(closed_on__gte=models.F("surgery_date")),
                name="stoma_closed_after_surgery",
            ),
        ]
        triggers = [SURGERY_AFTER_BIRTH, stays_with_patient()]

    def __str__(self) -> str:
        return self.short_name

    def clean(self) -> None:
        """Rules about the dates, in words, beside their fields."""
        problems = {"surgery_date": self._surgery_problem(), "closed_on": self._closed_problem()}
        if found := {name: words for name, words in problems.items() if words}:
            raise ValidationError(found)

    def _surgery_problem(self) -> str:
        if self.surgery_date is None:
            return (
                "" if self.surgery_date_unknown else "Give the date, or tick that it is not known."
            )
        if self.surgery_date_unknown:
            return "Clear the date, or untick that it is not known."
        if self.surgery_date > timezone.localdate():
            return "This date is in the future."
        born = self.patient.date_of_birth
        if self.surgery_date < born:
            return f"The patient was born on {formatting.day(born)}, after this date."
        return ""

    def _closed_problem(self) -> str:
        if self.closed_on is None:
            return ""
        if self.closed_on > timezone.localdate():
            return "This date is in the future."
        if self.surgery_date and self.closed_on < self.surgery_date:
            made, closed = formatting.day(self.surgery_date), formatting.day(self.closed_on)
            return f"Made on {made} and closed on {closed}: it cannot be closed before it is made."
        if self.closed_on < self.patient.date_of_birth:
            return "The patient was not born yet."
        return ""

    @property
    def short_name(self) -> str:
        """Such as "End ileostomy, right lower"."""
        construction = Construction(self.construction).label
        kind = StomaKind(self.kind).label.lower()
        return f"{construction} {kind}, {Site(self.site).label.lower()}"

    @property
    def is_open(self) -> bool:
        """Still there."""
        return self.closed_on is None
