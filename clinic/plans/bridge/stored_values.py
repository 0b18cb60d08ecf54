"""Stored values to the planner's: unknown stays unknown on the way."""

from collections.abc import Iterable
from decimal import Decimal
from enum import StrEnum
from typing import TypeVar

from django.db.models import TextChoices

from planning.inputs.clock import ClockHours

Word = TypeVar("Word", bound=StrEnum)


def number(value: Decimal | int | None) -> float | None:
    """A stored number; None is not recorded."""
    return None if value is None else float(value)


def word(kind: type[Word], value: str | None) -> Word | None:
    """One choice; "" and None are not recorded. Spaces and hyphens are the record's spelling."""
    return kind(value.replace(" ", "_").replace("-", "_")) if value else None


def word_set(kind: type[Word], values: Iterable[str] | None) -> frozenset[Word] | None:
    """A set of choices; None is not recorded, empty is none of them."""
    return None if values is None else frozenset(kind(value) for value in values)


def two_groups(
    kind: type[Word],
    later: type[TextChoices],
    first: Iterable[str] | None,
    second: Iterable[str] | None,
) -> tuple[frozenset[Word] | None, frozenset[Word]]:
    """One list asked in two groups: what was ticked, None where neither was answered; and what was
    not asked. ``later``: the words of the second group, which a visit may be older than.

    A visit of the time when all words were in one list has ticked words of both in ``first``.
    """
    if first is None and second is None:
        return None, frozenset()
    newer = frozenset(kind(value) for value in later.values)
    ticked = frozenset(kind(value) for value in (*(first or ()), *(second or ())))
    asked: set[Word] = set()
    if first is not None:
        asked |= frozenset(kind) - newer
    if second is not None or ticked & newer:
        asked |= newer
    return ticked, frozenset(kind) - asked - ticked


def hours(values: Iterable[int] | None) -> ClockHours | None:
    """Hours of the face; None is not recorded, empty is looked and none."""
    return None if values is None else ClockHours(frozenset(values))


def some_hours(values: Iterable[int] | None) -> ClockHours:
    """Hours of a row that must have them."""
    return ClockHours(frozenset(values or ()))
