"""One row of details, and the days on which the clinic is closed."""

from uuid import uuid4

from django.contrib.postgres.fields import ArrayField
from django.core.exceptions import ValidationError
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q

from clinic.audit.history import tracked

THE_ROW = 1
EVERY_DAY = "Leave at least one day of the week open."


class PaperSize(models.TextChoices):
    A4 = "A4", "A4"
    LETTER = "Letter", "Letter"


@tracked()
class ClinicDetails(models.Model):
    """The one row there is; without it the environment's first values hold (``current.py``).

    ``hours_translated``: a language's code -> the same hours in it. ``closed_weekdays``: 0 is
    Monday, 6 is Sunday.
    """

    name = models.CharField("name of the clinic", max_length=80)
    phone = models.CharField("telephone", max_length=40)
    hours = models.CharField("opening hours", max_length=120, blank=True)
    hours_translated = models.JSONField(default=dict, blank=True)
    paper_size = models.CharField(max_length=10, choices=PaperSize)
    closed_weekdays = ArrayField(
        models.SmallIntegerField(validators=[MinValueValidator(0), MaxValueValidator(6)]),
        default=list,
        blank=True,
    )
    #: Off, no figure of the clinic is told apart by who operated.
    figures_by_surgeon = models.BooleanField("figures by surgeon", default=False)

    class Meta:
        verbose_name = verbose_name_plural = "clinic details"
        constraints = [
            models.CheckConstraint(condition=Q(pk=THE_ROW), name="clinic_details_are_one_row"),
            models.CheckConstraint(
                condition=Q(name__regex=r"\S", phone__regex=r"\S"),
                name="clinic_details_name_and_phone",
            ),
            models.CheckConstraint(
                condition=Q(paper_size__in=PaperSize.values), name="clinic_details_paper_is_known"
            ),
            models.CheckConstraint(
                condition=Q(closed_weekdays__contained_by=list(range(7)))
                & ~Q(closed_weekdays__contains=list(range(7))),
                name="clinic_details_open_some_day",
            ),
        ]

    def __str__(self) -> str:
        return "Clinic details"

    def clean(self) -> None:
        """Rules in words, beside the field to correct."""
        if set(range(7)) <= set(self.closed_weekdays or ()):
            raise ValidationError({"closed_weekdays": EVERY_DAY})


@tracked()
class Holiday(models.Model):
    """A day on which the clinic is closed, and what it is called."""

    uuid = models.UUIDField(default=uuid4, unique=True, editable=False)
    day = models.DateField(
        unique=True, error_messages={"unique": "This day is in the list already."}
    )
    name = models.CharField(max_length=60)

    class Meta:
        ordering = ["day"]
        constraints = [
            models.CheckConstraint(condition=Q(name__regex=r"\S"), name="holiday_has_a_name")
        ]

    def __str__(self) -> str:
        return f"{self.name}, {self.day}"
