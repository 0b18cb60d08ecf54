"""Every write to a patient's identity, sensitivities and stomas: atomic, named, audited."""

from collections.abc import Mapping
from datetime import date
from typing import Any, TypeVar

from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import Model
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.patients.models import KnownState, Patient, Removal, Sensitivity, Stoma
from clinic.patients.models.none_known import BESIDE_ROWS

Row = TypeVar("Row", bound=Model)
Actor = HttpRequest | User


@transaction.atomic
def register_patient(*, by: Actor, values: Mapping[str, Any]) -> Patient:
    """A new patient from validated ``values``."""
    return _create(Patient(), values, by, "registered")


@transaction.atomic
def correct_patient(*, patient: Patient, by: Actor, values: Mapping[str, Any]) -> Patient:
    """Change what was recorded about a patient; the old values stay in the history."""
    return _change(patient, values, by, "corrected")


@transaction.atomic
def answer_sensitivities(*, patient: Patient, by: Actor, none_known: bool | None) -> Patient:
    """Whether the skin has reacted to anything: True none known, False it has, None not asked.

    Raise ValidationError where none is known and a sensitivity is on record.
    """
    kept = _locked(patient)
    if none_known and kept.sensitivities.exists():
        raise ValidationError({"no_known_sensitivities": BESIDE_ROWS})
    return _answered(kept, none_known, by)


@transaction.atomic
def add_sensitivity(*, patient: Patient, by: Actor, values: Mapping[str, Any]) -> Sensitivity:
    """One more sensitivity; it ends an earlier "none known"."""
    kept = _locked(patient)
    if kept.no_known_sensitivities:
        _answered(kept, False, by)
    return _create(Sensitivity(patient=kept), values, by, "added")


@transaction.atomic
def remove_sensitivity(*, sensitivity: Sensitivity, by: Actor, why: Removal) -> None:
    """Take a sensitivity off the record; the history and the audit trail keep it.

    Without the last one the question is open again: removed is not "none known".
    """
    patient = _locked(sensitivity.patient)
    record(request_or_actor=by, action="removed", subject=sensitivity, detail=why.label)
    sensitivity.delete()
    if patient.no_known_sensitivities is not None and not patient.sensitivities.exists():
        _answered(patient, None, by)


@transaction.atomic
def add_stoma(*, patient: Patient, by: Actor, values: Mapping[str, Any]) -> Stoma:
    return _create(Stoma(patient=patient), values, by, "added")


@transaction.atomic
def correct_stoma(*, stoma: Stoma, by: Actor, values: Mapping[str, Any]) -> Stoma:
    return _change(stoma, values, by, "corrected")


@transaction.atomic
def close_stoma(*, stoma: Stoma, by: Actor, on: date) -> Stoma:
    """The stoma was reversed or removed ``on`` that day."""
    return _change(stoma, {"closed_on": on}, by, "closed")


@transaction.atomic
def agree_known(*, stoma: Stoma, by: Actor, values: Mapping[str, Any]) -> KnownState:
    """Record what is known and accepted in ``stoma``; later visits are compared with it."""
    who = by.user if isinstance(by, HttpRequest) else by
    named = {**values, "recorded_by_id": who.pk}
    return _create(KnownState(stoma=stoma), named, by, "agreed")


@transaction.atomic
def end_known(*, state: KnownState, by: Actor, on: date) -> KnownState:
    """It no longer holds from ``on``; the record keeps it."""
    return _change(state, {"ended_on": on}, by, "ended")


def _locked(patient: Patient) -> Patient:
    return Patient.objects.select_for_update().get(pk=patient.pk)


def _answered(patient: Patient, none_known: bool | None, by: Actor) -> Patient:
    values = {"no_known_sensitivities": none_known}
    return _change(patient, values, by, "corrected")


def _create(row: Row, values: Mapping[str, Any], by: Actor, action: str) -> Row:
    for name, value in values.items():
        setattr(row, name, value)
    row.full_clean()
    row.save()
    record(request_or_actor=by, action=action, subject=row)
    return row


def _change(row: Row, values: Mapping[str, Any], by: Actor, action: str) -> Row:
    kept: Row = type(row)._default_manager.select_for_update().get(pk=row.pk)
    changed = sorted(name for name, value in values.items() if getattr(kept, name) != value)
    for name, value in values.items():
        setattr(kept, name, value)
    kept.full_clean()
    kept.save()
    # The names of the fields, never their contents.
    record(request_or_actor=by, action=action, subject=kept, detail=", ".join(changed))
    return kept
