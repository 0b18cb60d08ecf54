"""A long list a page at a time, without counting it: *earlier* and *later* are all one needs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from django.db.models import Model, QuerySet

from clinic.requests import whole_number

A_PAGE = 25
#: Beyond this no one leafs; the database would still walk every row before it.
LAST_PAGE = 400
Row = TypeVar("Row", bound=Model)


@dataclass(frozen=True)
class Leaf(Generic[Row]):
    """One page of a list; ``before`` and ``after`` are page numbers, None at either end."""

    rows: list[Row]
    number: int
    after: int | None

    @property
    def before(self) -> int | None:
        return self.number - 1 if self.number > 1 else None

    @property
    def leafing(self) -> bool:
        return bool(self.before or self.after)

    def __bool__(self) -> bool:
        return bool(self.rows)


def leaf(rows: QuerySet[Row], asked: Any, *, size: int = A_PAGE) -> Leaf[Row]:
    """Page ``asked`` as it stood in the address; the first where that is no page number."""
    number = min(max(whole_number(asked) or 1, 1), LAST_PAGE)
    start = (number - 1) * size
    found = list(rows[start : start + size + 1])
    return Leaf(found[:size], number, number + 1 if len(found) > size else None)
