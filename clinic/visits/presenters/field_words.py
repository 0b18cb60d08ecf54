"""What a field of a form holds, in words: as it was typed, whether or not it is right."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from django.forms import BoundField

from clinic import formatting
from clinic.visits.forms.fields import NONE, HoursField, RadiiField
from clinic.visits.value_words import hours_words
from planning.inputs.clock import HOURS


def field_words(bound: BoundField) -> str:
    """The field's value as a person reads it; "" where nothing is entered."""
    field: Any = bound.field
    value: Any = bound.value()
    if isinstance(field, RadiiField):
        entered = [part for part in value or [] if part not in (None, "")]
        return "from a tracing" if entered else ""
    if isinstance(value, datetime):
        return formatting.moment(value)
    values = [str(v) for v in value] if isinstance(value, (list, tuple)) else [str(value or "")]
    values = [v for v in values if v not in ("", "None")]
    if value == 0 and not values:
        values = ["0"]
    if not values:
        return ""
    if isinstance(field, HoursField) and NONE not in values:
        hours = [hour for hour in HOURS if str(hour) in values]
        odd = [v for v in values if v not in map(str, HOURS)]
        return ", ".join([*([hours_words(hours)] if hours else []), *odd])
    labels = {str(v): str(label) for v, label in getattr(field, "choices", ())}
    words = ", ".join(labels.get(v, v) for v in values)
    unit = getattr(field, "unit", "")
    return f"{words} {unit}".strip()
