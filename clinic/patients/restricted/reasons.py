"""Who has said why a restricted record is opened: kept in the session, for one record each."""

from datetime import timedelta
from typing import Final

from django.db.models import TextChoices
from django.http import HttpRequest

from clinic.one_reading import once_a_reading
from clinic.patients.kept_a_while import KeptAWhile
from clinic.patients.models import Patient, Restriction

#: How long a reason holds, at most until signing out. Design value: a morning or an afternoon, so
#: that one visit with its papers and its letter takes one reason.
HOLDS: Final = timedelta(hours=4)
HOURS: Final = HOLDS // timedelta(hours=1)
REASONS: Final = KeptAWhile("reasons_given", HOLDS)


class Reason(TextChoices):
    """Why somebody opens a restricted record."""

    CARE = "care", "This person is in my care"
    ASKED = "asked", "I was asked about this person"
    DAY = "day", "Their visit day or their papers"
    EMERGENCY = "emergency", "An emergency"
    CHECK = "check", "A check of the record for the clinic"


@once_a_reading
def restricted() -> frozenset[int]:
    """The patients whose record is restricted now, by primary key: few. One query."""
    held = Restriction.objects.filter(lifted_at=None)
    return frozenset(held.values_list("patient_id", flat=True))


def has_said_why(request: HttpRequest, patient: Patient) -> bool:
    """Whether this person gave a reason for this record, in this session, not too long ago."""
    return REASONS.is_kept(request, patient)


def is_closed(request: HttpRequest, patient: Patient) -> bool:
    """Whether a reason has to be given first."""
    return patient.pk in restricted() and not has_said_why(request, patient)
