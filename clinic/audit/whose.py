"""Whose record a row is, and which record an address is about: one answer for the trail, for a
refusal and for what is closed without a reason."""

from collections.abc import Mapping
from functools import cache
from typing import Any
from uuid import UUID

from django.apps import apps
from django.db.models import Model, UUIDField

#: Through what a row belongs to somebody.
ABOVE = ("patient", "stoma", "visit", "assessment")


def patient_of(row: Any) -> Model | None:
    """Of the row, or of what it belongs to; None where it is about no one."""
    if row._meta.label == "patients.Patient":
        found: Model = row
        return found
    for name in ABOVE:
        if (above := getattr(row, name, None)) is not None:
            return patient_of(above)
    return None


def patient_of_address(ids: Mapping[str, Any]) -> Model | None:
    """The patient whose record an address is about, by the ids in it; each is unique among all
    kinds of rows. None where it is about no one, or there is no such row."""
    for part, given in ids.items():
        if not isinstance(given, UUID):
            continue
        for model, column in _known_by_id(part):
            row = model._default_manager.filter(**{column: given}).first()
            if row is not None and (patient := patient_of(row)) is not None:
                return patient
    return None


@cache
def _known_by_id(part: str) -> tuple[tuple[type[Model], str], ...]:
    """Every kind of row that an address may name, with the column of its id: those first that
    are called like the address's part, as one of them is nearly always the one."""
    found = []
    for model in apps.get_models():
        fields = model._meta.concrete_fields
        ids = (one.name for one in fields if isinstance(one, UUIDField) and one.unique)
        if column := next(ids, None):
            found.append((model, column))
    return tuple(sorted(found, key=lambda one: _likeness(part, str(one[0]._meta.model_name))))


def _likeness(part: str, name: str) -> int:
    return 0 if name == part else 1 if part in name else 2
