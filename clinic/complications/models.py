"""One complication of a stoma, as a clinician records and grades it."""

from decimal import Decimal
from uuid import uuid4

import pgtrigger
from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q

from clinic import formatting
from clinic.audit.history import tracked
from clinic.complications.choices import Grade, Kind, MeasuredBy
from clinic.patients.models import Stoma
from clinic.patients.models.fold import known
from clinic.patients.models.sensitivity import PARTIAL_DATE, partial_date_words
from clinic.plans.complication_rules import hernia_class
from clinic.visits.models.finality import never_emptied

#: A slip of the hand is outside it (design value).
DEFECT_CM = (Decimal("0.1"), Decimal(40))
NO_HERNIA = Q(defect_cm__isnull=True, incisional__isnull=True, recurrent__isnull=True)


@tracked()
class Complication(models.Model):
    """``found_on``: a day, a month or a year as far as it is known, "" not known. ``grade`` "":
    not graded. The defect is the gap in the muscle, measured; a bulge on the skin is none."""

    uuid = models.UUIDField(default=uuid4, unique=True, editable=False)
    stoma = models.ForeignKey(Stoma, models.PROTECT, related_name="complications")
    kind = models.CharField("What happened", max_length=20, choices=Kind)
    found_on = models.CharField(
        "When it was found", max_length=10, blank=True, validators=[partial_date_words]
    )
    grade = models.CharField("Grade (Clavien and Dindo)", max_length=5, choices=Grade, blank=True)
    disability = models.BooleanField("Disability when discharged", null=True, blank=True)
    done = models.CharField("What was done", max_length=200, blank=True)
    defect_cm = models.DecimalField(
        "Largest diameter of the gap in the muscle",
        max_digits=4,
        decimal_places=1,
        null=True,
        blank=True,
        validators=[MinValueValidator(DEFECT_CM[0]), MaxValueValidator(DEFECT_CM[1])],
    )
    measured_by = models.CharField("Measured by", max_length=10, choices=MeasuredBy, blank=True)
    incisional = models.BooleanField("Incisional hernia too", null=True, blank=True)
    recurrent = models.BooleanField("Came back after a repair", null=True, blank=True)
    recorded_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["recorded_at", "id"]
        constraints = [
            models.CheckConstraint(
                condition=known("kind", Kind, blank=False)
                & known("grade", Grade, blank=True)
                & known("measured_by", MeasuredBy, blank=True),
                name="complication_words_are_known",
            ),
            models.CheckConstraint(
                condition=Q(found_on="") | Q(found_on__regex=PARTIAL_DATE),
                name="complication_found_on_is_a_date",
            ),
            models.CheckConstraint(
                condition=Q(kind=Kind.HERNIA) | NO_HERNIA, name="complication_class_of_a_hernia"
            ),
            models.CheckConstraint(
                condition=Q(defect_cm__isnull=True, measured_by="")
                | (Q(defect_cm__isnull=False, defect_cm__range=DEFECT_CM) & ~Q(measured_by="")),
                name="complication_defect_was_measured",
            ),
            models.CheckConstraint(
                condition=Q(disability__isnull=True) | ~Q(grade__in=["", Grade.V]),
                name="complication_disability_of_a_grade",
            ),
        ]
        triggers = [
            pgtrigger.ReadOnly(name="complication_stays", fields=["stoma", "uuid"]),
            never_emptied("complication_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Complication {self.pk}"

    @property
    def patient(self) -> models.Model:
        """Whose it is, for the audit trail."""
        return self.stoma.patient

    @property
    def hernia_class(self) -> str:
        """``I`` to ``IV``; "" where it was not measured."""
        return hernia_class(self.defect_cm, incisional=self.incisional)

    @property
    def when_words(self) -> str:
        return formatting.partial_day(self.found_on) if self.found_on else "when is not known"

    @property
    def grade_words(self) -> str:
        """``IIIbd``: the letter d says that a disability was left."""
        return f"{self.grade}{'d' if self.disability else ''}" if self.grade else "not graded"

    @property
    def hernia_words(self) -> str:
        """What was measured of a hernia, and the class that makes; "" for anything else."""
        if self.kind != Kind.HERNIA:
            return ""
        size = "gap not measured"
        if self.defect_cm is not None:
            by = MeasuredBy(self.measured_by).label
            size = f"gap {formatting.number(float(self.defect_cm))} cm ({by})"
        beside = _said(self.incisional, "incisional hernia too", "no incisional hernia")
        again = _said(self.recurrent, "came back after a repair", "not repaired before")
        of_class = f"Class {self.hernia_class}" if self.hernia_class else "No class"
        said = [of_class, size, beside or "incisional hernia not known", again]
        return "; ".join(part for part in said if part)


def _said(answer: bool | None, yes: str, no: str) -> str:
    return "" if answer is None else yes if answer else no
