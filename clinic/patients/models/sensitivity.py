"""What this person's skin has reacted to."""

import re
from datetime import date
from uuid import uuid4

from django.core.exceptions import ValidationError
from django.core.validators import RegexValidator
from django.db import models
from django.utils import timezone

from clinic.audit.history import tracked
from clinic.patients.models.fold import known
from clinic.patients.models.none_known import NOT_BESIDE_NONE_KNOWN, stays_with_patient
from clinic.patients.models.patient import Patient

PARTIAL_DATE = r"^(19|20)\d\d(-(0[1-9]|1[0-2])(-(0[1-9]|[12]\d|3[01]))?)?$"
partial_date_words = RegexValidator(
    PARTIAL_DATE, "Give a year (2021), a month (2021-03) or a day (2021-03-14)."
)


class Material(models.TextChoices):
    """Generic materials only; never a product."""

    ADHESIVE_BARRIER = "adhesive barrier", "Adhesive barrier"
    PROTECTANT_FILM = "protectant film", "Protectant film"
    PASTE = "paste", "Paste"
    POWDER = "powder", "Powder"
    LATEX = "latex", "Latex"
    ALCOHOL = "alcohol", "Alcohol"
    ADHESIVE_REMOVER = "adhesive remover", "Adhesive remover"
    TAPE = "tape", "Tape"
    RING = "ring", "Seal or ring"
    POUCH_COVER = "pouch cover", "Pouch cover"
    OTHER = "other", "Other"


class Removal(models.TextChoices):
    """Why a sensitivity is taken off the record."""

    MISTAKE = "mistake", "Recorded by mistake"
    RULED_OUT = "ruled out", "Tested and ruled out"
    REPLACED = "replaced", "Recorded again in better words"


@tracked()
class Sensitivity(models.Model):
    """One material, the reaction in words, since when, and whether a patch test confirmed it."""

    uuid = models.UUIDField(default=uuid4, unique=True, editable=False)
    patient = models.ForeignKey(Patient, models.PROTECT, related_name="sensitivities")
    material = models.CharField(max_length=20, choices=Material)
    other_material = models.CharField(max_length=60, blank=True)
    reaction = models.CharField(max_length=200)
    since = models.CharField(max_length=10, blank=True, validators=[partial_date_words])
    confirmed_by_patch_test = models.BooleanField(null=True, blank=True)
    #: Where it comes from, in words, and the signed visit whose plan suspected it; "" typed in.
    origin = models.CharField(max_length=100, blank=True, editable=False)
    origin_visit = models.UUIDField(null=True, blank=True, editable=False)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        verbose_name_plural = "sensitivities"
        ordering = ["material", "id"]
        constraints = [
            models.CheckConstraint(
                condition=known("material", Material, blank=False),
                name="sensitivity_material_is_known_word",
            ),
            models.CheckConstraint(
                condition=models.Q(material=Material.OTHER, other_material__regex=r"\S")
                | (~models.Q(material=Material.OTHER) & models.Q(other_material="")),
                name="sensitivity_other_is_named",
            ),
            models.CheckConstraint(
                condition=models.Q(reaction__regex=r"\S"), name="sensitivity_has_a_reaction"
            ),
            models.CheckConstraint(
                condition=models.Q(since="") | models.Q(since__regex=PARTIAL_DATE),
                name="sensitivity_since_is_a_date",
            ),
            models.CheckConstraint(
                condition=models.Q(origin="", origin_visit__isnull=True)
                | models.Q(origin__regex=r"\S", origin_visit__isnull=False),
                name="sensitivity_origin_names_its_visit",
            ),
        ]
        triggers = [NOT_BESIDE_NONE_KNOWN, stays_with_patient()]

    def __str__(self) -> str:
        return f"Sensitivity to {self.material_words.lower()}"

    def clean(self) -> None:
        """Rules across fields, in words, beside the field to correct."""
        if self.material == Material.OTHER and not self.other_material.strip():
            raise ValidationError({"other_material": "Say what the material was."})
        if self.material and self.material != Material.OTHER and self.other_material:
            raise ValidationError({"other_material": "Leave this empty unless you chose Other."})
        if self.since and (problem := self._since_problem()):
            raise ValidationError({"since": problem})

    def _since_problem(self) -> str:
        if not re.match(PARTIAL_DATE, self.since):
            return ""  # the field's own validator has said so
        try:
            year, *rest = (int(part) for part in self.since.split("-"))
            first = date(year, *[*rest, 1, 1][:2])
        except ValueError:
            return "There is no such day."
        if first > timezone.localdate():
            return "This is in the future."
        if self.since < self.patient.date_of_birth.isoformat()[: len(self.since)]:
            return "This is before the patient was born."
        return ""

    @property
    def material_words(self) -> str:
        """The material as shown; the typed words for "other"."""
        return self.other_material or Material(self.material).label
