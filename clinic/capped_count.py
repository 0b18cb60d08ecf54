"""A count that stops where no one needs the number any more."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.db.models import QuerySet

#: A count beyond this says *more than*: no one needs the number, and counting takes time.
COUNT_UP_TO = 999


@dataclass(frozen=True)
class Count:
    """How many, as far as was counted."""

    number: int

    @property
    def more(self) -> bool:
        return self.number > COUNT_UP_TO

    def __bool__(self) -> bool:
        return self.number > 0

    def __str__(self) -> str:
        return f"more than {COUNT_UP_TO}" if self.more else str(self.number)


def counted(rows: QuerySet[Any]) -> Count:
    """At most one more than ``COUNT_UP_TO`` is looked at."""
    return Count(rows.order_by()[: COUNT_UP_TO + 1].count())
