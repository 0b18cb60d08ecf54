"""Columns that several parts of a visit share, and the constraints behind them."""

from decimal import Decimal
from typing import Any

from django.contrib.postgres.fields import ArrayField
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models

from planning.inputs.quantities import Quantity

HOURS = list(range(1, 13))
#: Digits before the point that a column has room for.
WHOLE_DIGITS = 4


def measured(quantity: Quantity, *, help_text: str = "") -> Any:
    """The column of one quantity, with its label, fineness and range; NULL is not recorded."""
    low, high = limits(quantity)
    options: dict[str, Any] = {
        "verbose_name": quantity.label,
        "null": True,
        "blank": True,
        "validators": [MinValueValidator(low), MaxValueValidator(high)],
        "help_text": help_text,
    }
    column: Any
    if quantity.decimals:
        digits = WHOLE_DIGITS + quantity.decimals
        column = models.DecimalField(max_digits=digits, decimal_places=quantity.decimals, **options)
    else:
        column = models.PositiveIntegerField(**options)
    column.quantity = quantity
    return column


def quantity_of(column: object) -> Quantity | None:
    """What a column made by ``measured`` holds; None for every other."""
    return getattr(column, "quantity", None)


def limits(quantity: Quantity) -> tuple[Decimal, Decimal]:
    """The lowest and highest value as typed: a float 0.1 is a little more than 0.1."""
    return Decimal(str(quantity.lowest)), Decimal(str(quantity.highest))


def in_range(field: str, quantity: Quantity, name: str) -> models.CheckConstraint:
    """The database's own refusal of what ``quantity`` cannot be; NULL is unknown."""
    return _between(field, *limits(quantity), name)


def an_hour(field: str, name: str) -> models.CheckConstraint:
    """One hour of the clock face; NULL is unknown."""
    return _between(field, HOURS[0], HOURS[-1], name)


def _between(
    field: str, low: float | Decimal, high: float | Decimal, name: str
) -> models.CheckConstraint:
    return models.CheckConstraint(
        condition=models.Q(**{f"{field}__range": (low, high)})
        | models.Q(**{f"{field}__isnull": True}),
        name=name,
    )


def one_of(field: str, choices: type[models.TextChoices], name: str) -> models.CheckConstraint:
    """The database's own refusal of a word that is not in ``choices``; "" is not recorded."""
    return models.CheckConstraint(
        condition=models.Q(**{f"{field}__in": ["", *choices.values]}), name=name
    )


def hours_valid(field: str, name: str) -> models.CheckConstraint:
    """Every hour is 1 to 12."""
    return models.CheckConstraint(
        condition=models.Q(**{f"{field}__contained_by": HOURS})
        | models.Q(**{f"{field}__isnull": True}),
        name=name,
    )


def words_valid(field: str, choices: type[models.TextChoices], name: str) -> models.CheckConstraint:
    """Every word of the list is one of ``choices``."""
    return models.CheckConstraint(
        condition=models.Q(**{f"{field}__contained_by": choices.values})
        | models.Q(**{f"{field}__isnull": True}),
        name=name,
    )


def word(label: str, choices: type[models.TextChoices], *, help_text: str = "") -> Any:
    """One of ``choices``; "" is not recorded."""
    return models.CharField(
        label, max_length=30, choices=choices.choices, blank=True, default="", help_text=help_text
    )


def yes_no(label: str, *, help_text: str = "") -> Any:
    """Yes, no, or NULL for not recorded."""
    return models.BooleanField(label, null=True, blank=True, help_text=help_text)


def words(label: str, choices: type[models.TextChoices], *, help_text: str = "") -> Any:
    """Several of ``choices``; NULL is not recorded, an empty list is *none of these*."""
    return ArrayField(
        models.CharField(max_length=30, choices=choices.choices),
        verbose_name=label,
        null=True,
        blank=True,
        help_text=help_text,
    )


def hours(label: str, *, help_text: str = "") -> Any:
    """Hours of the clock face; NULL is not recorded, an empty list is *looked, none*."""
    return ArrayField(
        models.PositiveSmallIntegerField(),
        verbose_name=label,
        null=True,
        blank=True,
        help_text=help_text,
    )
