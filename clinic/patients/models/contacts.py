"""How to reach and speak with a person: their language, a carer, the family doctor, the address."""

from django.core.exceptions import ValidationError
from django.db import models

from clinic.audit.history import tracked
from clinic.patients.models.none_known import stays_with_patient
from clinic.patients.models.patient import Patient
from clinic.patients.models.telephone import NUMBER_CHECKS, dialled

CARER = ("carer_name", "carer_relation", "carer_phone", "carer_changes", "carer_may_be_told")
WHICH_CARER = "Give the carer's name, or how they are related."
WHICH_DOCTOR = "Give the doctor's name or the practice."


def _written(*fields: str) -> models.Q:
    """At least one of ``fields`` holds a word."""
    found = models.Q()
    for field in fields:
        found |= models.Q(**{f"{field}__regex": r"\S"})
    return found


def _number_or_none(field: str) -> models.Q:
    return models.Q(**{field: ""}) | dialled(field)


@tracked()
class Contacts(models.Model):
    """One row a person. "" and null are *not recorded*.

    ``language_spoken`` is what is spoken with the patient. The language of printed sheets is the
    patient's ``sheet_language``: neither is worked out from the other.
    """

    patient = models.OneToOneField(Patient, models.PROTECT, related_name="contacts")
    language_spoken = models.CharField(max_length=60, blank=True)
    interpreter_needed = models.BooleanField(null=True, blank=True)
    carer_name = models.CharField("carer's name", max_length=100, blank=True)
    carer_relation = models.CharField("carer's relation", max_length=60, blank=True)
    carer_phone = models.CharField(
        "carer's telephone", max_length=40, blank=True, validators=NUMBER_CHECKS
    )
    carer_changes = models.BooleanField("carer does the changes", null=True, blank=True)
    carer_may_be_told = models.BooleanField("carer may be spoken with", null=True, blank=True)
    doctor_name = models.CharField("family doctor", max_length=100, blank=True)
    doctor_practice = models.CharField("practice", max_length=120, blank=True)
    doctor_phone = models.CharField(
        "practice's telephone", max_length=40, blank=True, validators=NUMBER_CHECKS
    )
    address = models.TextField(max_length=300, blank=True)
    saved_at = models.DateTimeField(auto_now=True)

    class Meta:
        verbose_name = verbose_name_plural = "contacts"
        constraints = [
            models.CheckConstraint(
                condition=_written("carer_name", "carer_relation")
                | models.Q(
                    carer_phone="", carer_changes__isnull=True, carer_may_be_told__isnull=True
                ),
                name="contacts_carer_is_somebody",
            ),
            models.CheckConstraint(
                condition=_written("doctor_name", "doctor_practice") | models.Q(doctor_phone=""),
                name="contacts_doctor_is_somebody",
            ),
            models.CheckConstraint(
                condition=_number_or_none("carer_phone") & _number_or_none("doctor_phone"),
                name="contacts_phones_are_numbers",
            ),
        ]
        triggers = [stays_with_patient()]

    def __str__(self) -> str:
        return f"Contacts {self.pk}"

    def clean(self) -> None:
        """Rules across fields, in words, beside the field to correct."""
        wrong = {}
        answered = (self.carer_changes, self.carer_may_be_told) != (None, None)
        named = self.carer_name.strip() or self.carer_relation.strip()
        if (self.carer_phone or answered) and not named:
            wrong["carer_name"] = WHICH_CARER
        if self.doctor_phone and not (self.doctor_name.strip() or self.doctor_practice.strip()):
            wrong["doctor_name"] = WHICH_DOCTOR
        if wrong:
            raise ValidationError(wrong)

    @property
    def has_carer(self) -> bool:
        return bool(self.carer_name or self.carer_relation)

    @property
    def has_doctor(self) -> bool:
        return bool(self.doctor_name or self.doctor_practice)

    @property
    def language_words(self) -> str:
        """What is spoken and whether with an interpreter; "" where neither is recorded."""
        spoken = f"Language spoken: {self.language_spoken}" if self.language_spoken else ""
        if self.interpreter_needed is None:
            return spoken
        need = "interpreter needed" if self.interpreter_needed else "no interpreter needed"
        if spoken:
            return f"{spoken}; {need}"
        unknown = "; the language is not recorded" if self.interpreter_needed else ""
        return need.capitalize() + unknown
