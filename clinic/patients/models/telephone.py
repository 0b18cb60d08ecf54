"""A telephone number as it was typed, whose it is and what kind. It is checked leniently and never
rewritten."""

import re
from uuid import uuid4

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import F, Func, Value
from django.db.models.functions import Right

from clinic.audit.history import tracked
from clinic.patients.models.fold import known
from clinic.patients.models.none_known import stays_with_patient
from clinic.patients.models.patient import Patient

#: How people write a number: digits, spaces, brackets and signs, perhaps an extension.
NUMBER = r"^[+(0-9][0-9 ()./+-]*( ?([Ee][Xx][Tt]([.]|ension)?|[Xx]|#) ?[0-9]{1,6})?$"
THREE_DIGITS = r"([0-9][^0-9]*){3}"
NUMBER_WORDS = (
    "Write digits, spaces, brackets, + - . / and an extension such as ext. 12; words go beside it."
)
TOO_SHORT = "A telephone number has at least three digits."
#: What two numbers must share at their end to be the same line: a local number in most countries.
SHARED = 7
_EXTENSION = "[A-Za-z#].*$"
_TRUNK_ZERO = re.compile(r"\(0\)")


def checked_number(number: str) -> None:
    """Raise ValidationError, with one sentence, for what cannot be a telephone number."""
    if not re.search(NUMBER, number):
        raise ValidationError(NUMBER_WORDS)
    if not re.search(THREE_DIGITS, number):
        raise ValidationError(TOO_SHORT)


NUMBER_CHECKS = [checked_number]


def dialled(field: str) -> models.Q:
    """The condition that ``field`` holds a number as ``checked_number`` takes it."""
    return models.Q(**{f"{field}__regex": NUMBER}) & models.Q(**{f"{field}__regex": THREE_DIGITS})


class Whose(models.TextChoices):
    PATIENT = "patient", "The patient's own"
    CARER = "carer", "The carer's"
    FAMILY = "family", "Family or a friend"
    CARE_HOME = "care home", "Care home or nursing service"
    OTHER = "other", "Other"


class PhoneKind(models.TextChoices):
    MOBILE = "mobile", "Mobile"
    HOME = "home", "Home"
    WORK = "work", "Work"
    OTHER = "other", "Other"


def without(pattern: str, text: models.expressions.Combinable) -> Func:
    """``text`` with everything that ``pattern`` finds left out."""
    return Func(
        text,
        Value(pattern),
        Value(""),
        Value("g"),
        function="regexp_replace",
        output_field=models.TextField(),
    )


@tracked(exclude=["tail"])
class Telephone(models.Model):
    """``tail``: the last digits without an extension, to find the same line however written."""

    uuid = models.UUIDField(default=uuid4, unique=True, editable=False)
    patient = models.ForeignKey(Patient, models.PROTECT, related_name="telephones")
    number = models.CharField("telephone number", max_length=40, validators=NUMBER_CHECKS)
    whose = models.CharField(max_length=10, choices=Whose, blank=True)
    kind = models.CharField(max_length=10, choices=PhoneKind, blank=True)
    name = models.CharField("name or remark", max_length=80, blank=True)
    tail = models.GeneratedField(
        expression=Right(without("[^0-9]", without(_EXTENSION, F("number"))), SHARED),
        output_field=models.TextField(),
        db_persist=True,
    )

    class Meta:
        ordering = ["id"]
        indexes = [models.Index(fields=["tail"], name="telephone_by_tail")]
        constraints = [
            models.CheckConstraint(condition=dialled("number"), name="telephone_is_a_number"),
            models.CheckConstraint(
                condition=known("whose", Whose, blank=True) & known("kind", PhoneKind, blank=True),
                name="telephone_words_are_known",
            ),
            models.CheckConstraint(
                condition=~models.Q(whose=Whose.OTHER) | models.Q(name__regex=r"\S"),
                name="telephone_other_is_named",
            ),
        ]
        triggers = [stays_with_patient()]

    def __str__(self) -> str:
        return f"Telephone {self.pk}"

    def clean(self) -> None:
        """Rules across fields, in words, beside the field to correct."""
        if self.whose == Whose.OTHER and not self.name.strip():
            raise ValidationError({"name": "Say whose number it is."})

    @property
    def about(self) -> str:
        """Whose it is and what kind, in words; says so where neither is recorded."""
        parts = [self.get_whose_display(), self.get_kind_display().lower(), self.name]
        return ", ".join(part for part in parts if part) or "whose it is, is not recorded"

    @property
    def briefly(self) -> str:
        """The same beside a name, where a line has little room: ``own mobile``."""
        if self.whose != Whose.PATIENT:
            return self.about
        kind = self.get_kind_display().lower() if self.kind != PhoneKind.OTHER else ""
        return f"own {kind or 'number'}{', ' * bool(self.name)}{self.name}"


def digits_of(number: str) -> str:
    """The digits that are dialled from abroad or from the next town: no extension, no zeros before.

    >>> digits_of("+44 (0)1632 960123 ext. 4"), digits_of("01632 960123")
    ('441632960123', '1632960123')
    """
    bare = re.sub(_EXTENSION, "", _TRUNK_ZERO.sub("", number))
    return re.sub("[^0-9]", "", bare).lstrip("0")


def same_line(one: str, other: str) -> bool:
    """Whether two numbers lead to the same telephone, however each is written.

    >>> same_line("+44 (0)1632 960123", "(01632) 960-123"), same_line("555-0100", "555 0101")
    (True, False)
    """
    shorter, longer = sorted((digits_of(one), digits_of(other)), key=len)
    return len(shorter) >= SHARED and longer.endswith(shorter)
