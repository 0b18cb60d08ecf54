"""One stored value in words."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from typing import Any

from django.contrib.postgres.fields import ArrayField
from django.db import models

from clinic import formatting
from clinic.visits.models.fields import quantity_of
from planning.inputs.clock import ClockHours
from planning.inputs.quantities import Quantity


def hours_words(hours: list[int] | None) -> str:
    """``4 to 8 o'clock``; ``none``; "" where not recorded."""
    return "" if hours is None else ClockHours.of(*hours).words()


def value_words(row: models.Model, name: str) -> str:
    """Column ``name`` of ``row`` in words; "" where not recorded."""
    column = row._meta.get_field(name)
    value = getattr(row, name)
    if value is None or value == "":
        return ""
    if isinstance(column, ArrayField):
        return _list_words(column, value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if quantity := quantity_of(column):
        return _number_words(quantity, value)
    if getattr(column, "choices", None):
        return str(getattr(row, f"get_{name}_display")())
    if name.endswith("_hour"):
        return f"{value} o'clock"
    return formatting.day(value) if hasattr(value, "year") else str(value)


def _number_words(quantity: Quantity, value: Decimal | int) -> str:
    return f"{formatting.number(value)} {quantity.unit}".rstrip()


def _list_words(column: ArrayField[Any, Any], value: list[Any]) -> str:
    if quantity := quantity_of(column.base_field):
        return f"{', '.join(formatting.number(Decimal(str(v))) for v in value)} {quantity.unit}"
    labels = dict(column.base_field.choices or [])
    if not labels:
        return hours_words(value)
    return ", ".join(labels.get(v, v) for v in value) or "none of these"


def stored_words(column: Any, value: Any) -> str:
    """A value as the history keeps it (plain JSON) in words; ``not recorded`` where there is none.

    Numbers and dates come back as text, lists of words and hours as lists.
    """
    if value is None or value == "":
        return formatting.NOT_RECORDED
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return _list_words(column, value)
    if column.choices:
        return str(dict(column.choices).get(value, value))
    if isinstance(column, models.DateTimeField):
        return formatting.moment(datetime.fromisoformat(value))
    if isinstance(column, models.DateField):
        return formatting.day(date.fromisoformat(value))
    if quantity := quantity_of(column):
        return _number_words(quantity, Decimal(str(value)))
    return str(value)
