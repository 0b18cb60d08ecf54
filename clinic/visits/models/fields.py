"""Columns that several parts of a visit share, and the constraints behind them."""

from typing import Any

from django.contrib.postgres.fields import ArrayField
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models

HOURS = list(range(1, 13))

#: Typing limits, not clinical ones: beyond them a number cannot be what was meant (design value).
MM_LIMIT = 300


def within(field: str, low: float, high: float, name: str) -> models.CheckConstraint:
    """The database's own refusal of ``field`` outside ``low``..``high``; NULL is unknown."""
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


def millimetres(label: str, *, low: float = 0, high: float = MM_LIMIT, help_text: str = "") -> Any:
    """A length in mm to one decimal; NULL is not recorded."""
    return models.DecimalField(
        label,
        max_digits=5,
        decimal_places=1,
        null=True,
        blank=True,
        validators=[MinValueValidator(low), MaxValueValidator(high)],
        help_text=help_text,
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
