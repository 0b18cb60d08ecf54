"""Every write to a patient, their contacts, sensitivities and stomas: atomic, named, audited."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, TypeVar
from uuid import UUID, uuid4

from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import Model
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.patients.models import (
    Contacts,
    KnownState,
    Patient,
    Removal,
    Sensitivity,
    Stoma,
    Telephone,
)
from clinic.patients.models.none_known import BESIDE_ROWS
from clinic.patients.models.patient import NUMBER_IS_GIVEN
from clinic.taken import said_beside

Row = TypeVar("Row", bound=Model)
Actor = HttpRequest | User


@transaction.atomic
def register_patient(*, by: Actor, values: Mapping[str, Any], ruled_out: int = 0) -> Patient:
    """A new patient from validated ``values``; ``ruled_out``: how many people on record seemed
    to be the same person and are not.

    Raise ValidationError, beside its field, for a record number that somebody else has just got.
    """
    detail = f"{ruled_out} similar, said to be other people" if ruled_out else ""
    with said_beside("record_number", NUMBER_IS_GIVEN):
        return _create(Patient(), values, by, "registered", detail)


@transaction.atomic
def correct_patient(*, patient: Patient, by: Actor, values: Mapping[str, Any]) -> Patient:
    """Change what was recorded about a patient; the old values stay in the history.

    Raise ValidationError, beside its field, for a record number that somebody else has just got.
    """
    with said_beside("record_number", NUMBER_IS_GIVEN):
        return _change(patient, values, by, "corrected")


@dataclass(frozen=True)
class Number:
    """A telephone as it was typed; ``key`` was made where it was typed."""

    key: UUID
    values: Mapping[str, Any]


@transaction.atomic
def save_contacts(
    *, patient: Patient, by: Actor, values: Mapping[str, Any], numbers: Sequence[Number]
) -> Contacts:
    """How to reach a person: ``values`` of the contacts that were asked, and all their telephones.

    A telephone that is not among ``numbers`` is taken off the record; the history keeps it.
    """
    kept = _locked(patient)
    contacts = Contacts.objects.filter(patient=kept).first() or Contacts(patient=kept)
    changed = _set(contacts, values)
    contacts.full_clean()
    contacts.save()
    if _numbers_changed(kept, numbers):
        changed.append("telephones")
    # The names of the fields, never their contents.
    record(request_or_actor=by, action="changed contacts", subject=kept, detail=", ".join(changed))
    return contacts


def _numbers_changed(patient: Patient, numbers: Sequence[Number]) -> bool:
    """Store ``numbers`` as they are; whether any was added, changed or taken away."""
    left = {one.uuid: one for one in patient.telephones.all()}
    changed = False
    for number in numbers:
        row = left.pop(number.key, None) or Telephone(patient=patient, uuid=_free(number.key))
        if _set(row, number.values) or row.pk is None:
            changed = True
            row.full_clean()
            row.save()
    for gone in left.values():
        changed = True
        gone.delete()
    return changed


def _free(key: UUID) -> UUID:
    """``key``, unless a telephone of somebody else has it."""
    return uuid4() if Telephone.objects.filter(uuid=key).exists() else key


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
    """It no longer applies from ``on``; the record keeps it."""
    return _change(state, {"ended_on": on}, by, "ended")


def _locked(patient: Patient) -> Patient:
    return Patient.objects.select_for_update().get(pk=patient.pk)


def _answered(patient: Patient, none_known: bool | None, by: Actor) -> Patient:
    values = {"no_known_sensitivities": none_known}
    return _change(patient, values, by, "corrected")


def _set(row: Model, values: Mapping[str, Any]) -> list[str]:
    """Set ``values``; the names of those that were different."""
    changed = sorted(name for name, value in values.items() if getattr(row, name) != value)
    for name, value in values.items():
        setattr(row, name, value)
    return changed


def _create(row: Row, values: Mapping[str, Any], by: Actor, action: str, detail: str = "") -> Row:
    _set(row, values)
    row.full_clean()
    row.save()
    record(request_or_actor=by, action=action, subject=row, detail=detail)
    return row


def _change(row: Row, values: Mapping[str, Any], by: Actor, action: str) -> Row:
    kept: Row = type(row)._default_manager.select_for_update().get(pk=row.pk)
    changed = _set(kept, values)
    kept.full_clean()
    kept.save()
    # The names of the fields, never their contents.
    record(request_or_actor=by, action=action, subject=kept, detail=", ".join(changed))
    return kept
