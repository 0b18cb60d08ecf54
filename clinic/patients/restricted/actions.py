"""A record is restricted, freed, and opened with a reason: named, and on the trail."""

from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction
from django.http import HttpRequest
from django.utils import timezone

from clinic.audit.record import record
from clinic.patients.models import Patient, Restricted, Restriction
from clinic.patients.restricted.reasons import REASONS

ALREADY = "This record is restricted already."


@transaction.atomic
def restrict(*, patient: Patient, by: HttpRequest, why: str, words: str) -> Restriction:
    """From now on the record opens only with a reason.

    Raise ValidationError where it is restricted already.
    """
    held = Patient.objects.select_for_update().get(pk=patient.pk)
    if held.restrictions.filter(lifted_at=None).exists():
        raise ValidationError(ALREADY)
    user: Any = by.user
    made = Restriction(patient=held, why=why, words=words, set_by=user)
    made.full_clean()
    made.save()
    record(request_or_actor=by, action="restricted", subject=held, detail=Restricted(why).label)
    return made


@transaction.atomic
def lift(*, patient: Patient, by: HttpRequest) -> None:
    """The record opens as any other. Lifted twice is lifted once."""
    held = Restriction.objects.select_for_update().filter(patient=patient, lifted_at=None).first()
    if held is None:
        return
    user: Any = by.user
    held.lifted_by, held.lifted_at = user, timezone.now()
    held.save()
    record(request_or_actor=by, action="lifted restriction", subject=patient)


@transaction.atomic
def open_with_reason(*, patient: Patient, by: HttpRequest, reason: str) -> None:
    """Keep the reason for a while, and on the trail for good."""
    REASONS.keep(by, patient)
    record(request_or_actor=by, action="opened restricted", subject=patient, detail=reason)
