"""Numbers of one assessment by their declared places in the findings."""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from typing import Any, get_type_hints

from django.db import models as db

from clinic.visits.chart import PARTS
from clinic.visits.forms.part import PartForm
from clinic.visits.models import Assessment
from clinic.visits.models.fields import quantity_of
from planning.inputs.quantities import Quantity

#: Path of a quantity -> its value as charted; what was not recorded is not in it.
Charted = dict[str, Decimal | int]


def charted(assessment: Assessment) -> Charted:
    """Every number of the assessment's parts. What is of the person may have been charted with
    another stoma of the same visit: it counts for this one too."""
    found: Charted = {}
    for form, relation in PARTS.values():
        row = getattr(assessment, relation, None)
        for name, quantity in _columns_of(form):
            value = None if row is None else getattr(row, name)
            if value is None and quantity.of_person:
                value = beside(assessment, form._meta.model, name)
            if value is not None:
                found[quantity.path] = value
    return found


@cache
def _columns_of(form: type[PartForm]) -> tuple[tuple[str, Quantity], ...]:
    model: type[db.Model] = form._meta.model
    columns = ((column.name, quantity_of(column)) for column in model._meta.concrete_fields)
    return tuple((name, quantity) for name, quantity in columns if quantity is not None)


@cache
def form_names() -> dict[str, str]:
    """Path of each number of a part -> its field's name on the visit page."""
    return {
        quantity.path: f"{prefix}-{name}"
        for prefix, (form, _) in PARTS.items()
        for name, quantity in _columns_of(form)
    }


def beside(assessment: Assessment, model: Any, name: str) -> Any:
    """What was charted with another stoma of the visit; the first, by the stoma's number. No query
    where none was seen, as ``with_parts`` tells."""
    if not getattr(assessment, "has_others", True):
        return None
    others = model.objects.filter(assessment__visit=assessment.visit_id)
    known = others.exclude(assessment=assessment.pk).exclude(**{name: None})
    if isinstance(model._meta.get_field(name), db.CharField):
        known = known.exclude(**{name: ""})
    return known.order_by("assessment__stoma_id").values_list(name, flat=True).first()


def numbers(values: Charted, part: str, kind: type) -> dict[str, Any]:
    """Those directly in ``part`` of the findings, by name, as ``kind`` takes them."""
    return {
        name: _as(_hints(kind)[name], value)
        for path, value in values.items()
        for place, _, name in [path.rpartition(".")]
        if place == part
    }


@cache
def _hints(kind: type) -> dict[str, Any]:
    return get_type_hints(kind)


def _as(hint: Any, value: Decimal | int) -> float | int:
    return int(value) if hint == int | None else float(value)
