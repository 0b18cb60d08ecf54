"""One range a quantity: what the form takes, the database takes and the planner takes.

Numeric columns are found in the models themselves, so that a new one without a declaration fails.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django import forms
from django.core.exceptions import ValidationError
from django.db import DatabaseError, transaction
from django.db import models as db

from clinic.visits import models
from clinic.visits.chart import PARTS, ROWS
from clinic.visits.forms.fields import NumberField, RadiiField
from clinic.visits.models.fields import limits, quantity_of
from planning.inputs.quantities import AGE, BEGUN_DAYS, QUANTITIES, Quantity
from tests.clinic.plans.test_bridge import REQUIRED, WITH
from tests.factories.visits import AssessmentFactory

FORMS: dict[Any, Any] = {form._meta.model: form for form, _ in (*PARTS.values(), *ROWS.values())}
FORMS[models.Assessment] = None
#: Choices of an hour, and the order of rows on the page: no measurement.
NOT_MEASURED = {"axis_hour", "lumen_hour", "working_hour", "placed_towards_hour", "position"}


def numeric(model: Any) -> list[db.Field[Any, Any]]:
    """Columns of ``model`` that hold a number, or several."""
    return [
        column
        for column in model._meta.concrete_fields
        if not column.primary_key and column.name not in NOT_MEASURED and is_number(column)
    ]


def is_number(column: Any) -> bool:
    """Lists of small whole numbers are hours of the clock face."""
    base = getattr(column, "base_field", None)
    if base is not None:
        return isinstance(base, db.DecimalField | db.FloatField)
    return isinstance(column, db.DecimalField | db.IntegerField | db.FloatField)


COLUMNS = [
    pytest.param(model, column, id=f"{model.__name__}.{column.name}")
    for model in FORMS
    for column in numeric(model)
]


def declared(column: Any) -> Quantity:
    found = quantity_of(getattr(column, "base_field", column))
    assert found is not None, f"{column} has no row in planning/inputs/quantities.py"
    return found


@pytest.mark.parametrize(("model", "column"), COLUMNS)
def test_every_number_is_declared(model: Any, column: Any) -> None:
    assert declared(column) in QUANTITIES
    assert str(column.verbose_name) == declared(column).label


def test_every_declared_quantity_is_charted_once() -> None:
    """But the age, which is counted from the date of birth, and the day of a product begun: that of
    the one begun last is a column of the system, that of any other a row."""
    charted = [declared(column) for model in FORMS for column in numeric(model)]
    charted.remove(BEGUN_DAYS)
    assert sorted(one.path for one in charted) == sorted(
        one.path for one in QUANTITIES if one is not AGE
    )


def just_outside(quantity: Quantity) -> list[Decimal]:
    step = Decimal(1).scaleb(-quantity.decimals)
    low, high = limits(quantity)
    return [low - step, high + step]


def box(model: Any, column: Any) -> forms.Field:
    field: Any = FORMS[model].base_fields[column.name]
    return field.fields[0] if isinstance(field, RadiiField) else field


@pytest.mark.parametrize(("model", "column"), COLUMNS)
def test_the_form_takes_what_is_declared(model: Any, column: Any) -> None:
    quantity, field = declared(column), box(model, column)
    assert isinstance(field, NumberField)
    assert field.unit == quantity.unit
    for value in limits(quantity):
        assert field.clean(str(value)) == value
    for value, words in zip(just_outside(quantity), ("At least", "At most"), strict=True):
        with pytest.raises(ValidationError, match=rf"{words} .*{quantity.unit}; please check\."):
            field.clean(str(value))
    with pytest.raises(ValidationError, match=r"whole number|after the point"):
        field.clean(f"{quantity.highest - 1:.0f}.{'1' * (quantity.decimals + 1)}")


@pytest.mark.django_db
@pytest.mark.parametrize(("model", "column"), COLUMNS)
def test_the_database_takes_what_is_declared(model: Any, column: Any) -> None:
    quantity = declared(column)
    for value in limits(quantity):
        kept = model.objects.get(pk=stored(model, column, value).pk)
        held = getattr(kept, column.name)
        assert (held[11] if isinstance(held, list) else held) == value
    for value in just_outside(quantity):
        with pytest.raises(DatabaseError, match="constraint"), transaction.atomic():
            stored(model, column, value)


def stored(model: Any, column: Any, value: Decimal) -> Any:
    """Past every form, straight into the table."""
    beside = {**REQUIRED.get(model, {}), **WITH.get(column.name, {})}
    held = [Decimal(15)] * 11 + [value] if hasattr(column, "base_field") else value
    return model.objects.create(assessment=AssessmentFactory(), **{**beside, column.name: held})
