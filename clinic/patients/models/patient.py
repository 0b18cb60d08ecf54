"""The person: identity, how they manage, and the standing conditions the planner asks about."""

from datetime import date
from uuid import uuid4

import pgtrigger
from django.contrib.postgres.indexes import GinIndex
from django.core.exceptions import ValidationError
from django.core.validators import RegexValidator
from django.db import models
from django.db.models.functions import Concat
from django.utils import timezone

from clinic import formatting
from clinic.audit.history import tracked
from clinic.patients.models.fold import Fold, known
from clinic.patients.models.none_known import NONE_KNOWN_STANDS_ALONE
from planning.inputs.quantities import AGE

EARLIEST_BIRTH = date(1880, 1, 1)
record_number_words = RegexValidator(
    r"^[A-Z0-9][A-Z0-9/-]*$",
    "A record number holds letters, digits, hyphens and slashes only, with no spaces.",
)
NUMBER_IS_GIVEN = "Another patient already has this record number."


class Sex(models.TextChoices):
    FEMALE = "female", "Female"
    MALE = "male", "Male"
    OTHER = "other", "Other"
    UNKNOWN = "unknown", "Unknown"


class SheetLanguage(models.TextChoices):
    """Languages of the take-home sheet; each but English has a catalogue of its wording."""

    ENGLISH = "en", "English"
    SPANISH = "es", "Spanish (español)"
    ARABIC = "ar", "Arabic (العربية)"


class Dexterity(models.TextChoices):
    GOOD = "good", "Good in both hands"
    LIMITED = "limited", "Limited grip or fine movement"
    ONE_HAND = "one hand", "One hand only"
    NONE = "none", "Cannot use hands for this"


class Eyesight(models.TextChoices):
    GOOD = "good", "Good, with glasses if worn"
    LIMITED = "limited", "Limited, even with glasses"
    NONE = "none", "Cannot see the stoma"


class PouchChanger(models.TextChoices):
    SELF = "self", "The patient alone"
    WITH_HELP = "with help", "The patient, with help"
    CARER = "carer", "A carer at home"
    NURSE = "nurse", "A nurse"


BIRTH_FITS_SURGERY = pgtrigger.Trigger(
    name="birth_fits_surgery",
    when=pgtrigger.Before,
    operation=pgtrigger.Insert | pgtrigger.Update,
    # One day of grace: the database's day may still be yesterday where the clinic is.
    func="""
        IF NEW.date_of_birth > CURRENT_DATE + 1 THEN
            RAISE EXCEPTION 'date of birth is in the future' USING ERRCODE = 'check_violation';
        END IF;
        IF EXISTS (
            SELECT 1 FROM patients_stoma
            WHERE patient_id = NEW.id AND surgery_date < NEW.date_of_birth
        ) THEN
            RAISE EXCEPTION 'date of birth is after a date of surgery'
                USING ERRCODE = 'check_violation';
        END IF;
        RETURN NEW;
    """,
)


@tracked(exclude=["search_name"])
class Patient(models.Model):
    """One person. ``uuid`` is the only id that appears in an address.

    Each standing condition is yes, no or null: null is "not known", which no rule reads as no.
    ``no_known_sensitivities`` is True where asked and none is known, False where the skin has
    reacted to something (named in a sensitivity, or not yet), null where no one has asked.
    """

    uuid = models.UUIDField(default=uuid4, unique=True, editable=False)
    record_number = models.CharField(
        max_length=20,
        unique=True,
        validators=[record_number_words],
        error_messages={"unique": NUMBER_IS_GIVEN},
    )
    family_name = models.CharField(max_length=100)
    given_name = models.CharField(max_length=100)
    date_of_birth = models.DateField()
    sex = models.CharField(max_length=10, choices=Sex, null=True, blank=True)
    sheet_language = models.CharField(
        max_length=5, choices=SheetLanguage, default=SheetLanguage.ENGLISH
    )
    large_print = models.BooleanField("large print for sheets", default=False)
    hand_dexterity = models.CharField(max_length=10, choices=Dexterity, blank=True)
    eyesight = models.CharField(max_length=10, choices=Eyesight, blank=True)
    pouch_changed_by = models.CharField(max_length=10, choices=PouchChanger, blank=True)
    notes = models.TextField(blank=True, max_length=2000)

    no_known_sensitivities = models.BooleanField(
        "asked: no known sensitivities", null=True, blank=True
    )
    liver_disease = models.BooleanField(null=True, blank=True)
    inflammatory_bowel_disease = models.BooleanField(null=True, blank=True)
    diabetes = models.BooleanField(null=True, blank=True)
    immunosuppressed = models.BooleanField("immune system suppressed", null=True, blank=True)
    anticoagulant = models.BooleanField("takes an anticoagulant", null=True, blank=True)
    radiotherapy_abdomen = models.BooleanField("radiotherapy to the abdomen", null=True, blank=True)
    psoriasis_or_eczema = models.BooleanField(null=True, blank=True)
    transplant = models.BooleanField(null=True, blank=True)
    kidney_disease = models.BooleanField(null=True, blank=True)
    heart_failure = models.BooleanField(null=True, blank=True)
    cancer = models.BooleanField(null=True, blank=True)
    short_bowel = models.BooleanField(null=True, blank=True)
    central_line = models.BooleanField(null=True, blank=True)
    cirrhosis = models.BooleanField(null=True, blank=True)
    portal_hypertension = models.BooleanField(null=True, blank=True)
    frail = models.BooleanField(null=True, blank=True)
    dementia = models.BooleanField(null=True, blank=True)
    last_weeks_of_life = models.BooleanField(null=True, blank=True)

    search_name = models.GeneratedField(
        expression=Fold(
            Concat("given_name", models.Value(" "), "family_name"),
        ),
        output_field=models.TextField(),
        db_persist=True,
    )
    created_at = models.DateTimeField(auto_now_add=True)

    STANDING_CONDITIONS = (
        "liver_disease",
        "inflammatory_bowel_disease",
        "diabetes",
        "immunosuppressed",
        "anticoagulant",
        "radiotherapy_abdomen",
        "psoriasis_or_eczema",
        "transplant",
        "kidney_disease",
        "heart_failure",
        "cancer",
        "short_bowel",
        "central_line",
        "cirrhosis",
        "portal_hypertension",
        "frail",
        "dementia",
        "last_weeks_of_life",
    )

    class Meta:
        ordering = ["family_name", "given_name", "date_of_birth"]
        indexes = [
            GinIndex(
                name="patient_name_trigrams", fields=["search_name"], opclasses=["gin_trgm_ops"]
            ),
            models.Index(fields=["date_of_birth"], name="patient_by_birth"),
        ]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(family_name__regex=r"\S", given_name__regex=r"\S"),
                name="patient_has_a_name",
            ),
            models.CheckConstraint(
                condition=models.Q(record_number__regex=r"^[A-Z0-9][A-Z0-9/-]*$"),
                name="patient_record_number_is_plain",
            ),
            models.CheckConstraint(
                condition=models.Q(date_of_birth__gte=EARLIEST_BIRTH),
                name="patient_birth_is_plausible",
            ),
            models.CheckConstraint(
                condition=models.Q(sex__isnull=True) | known("sex", Sex, blank=False),
                name="patient_sex_is_known_word",
            ),
            models.CheckConstraint(
                condition=known("sheet_language", SheetLanguage, blank=False),
                name="patient_sheet_language_is_offered",
            ),
            models.CheckConstraint(
                condition=known("hand_dexterity", Dexterity, blank=True)
                & known("eyesight", Eyesight, blank=True)
                & known("pouch_changed_by", PouchChanger, blank=True),
                name="patient_abilities_are_known_words",
            ),
        ]
        triggers = [BIRTH_FITS_SURGERY, NONE_KNOWN_STANDS_ALONE]

    def __str__(self) -> str:
        # Only the number: this text may reach a log.
        return f"Patient {self.record_number}"

    def clean(self) -> None:
        """Rules about the day of birth, in words, beside its field."""
        born: date | None = self.date_of_birth  # None while its field is being corrected
        if born and (problem := self._birth_problem(born)):
            raise ValidationError({"date_of_birth": problem})

    def _birth_problem(self, born: date) -> str:
        today = timezone.localdate()
        if born > today:
            return "This date is in the future."
        if formatting.years(born, today) > AGE.highest:
            return f"This is more than {AGE.highest} years ago."
        first = (
            self.stomas.aggregate(first=models.Min("surgery_date"))["first"] if self.pk else None
        )
        if first and first < born:
            return f"A stoma was made on {formatting.day(first)}, before this date."
        return ""

    @property
    def full_name(self) -> str:
        """Given name, then family name."""
        return f"{self.given_name} {self.family_name}"

    @property
    def list_name(self) -> str:
        """Family name first, as lists are sorted."""
        return f"{self.family_name}, {self.given_name}"
