"""Counting that takes more than one pass, done where the rows are."""

from __future__ import annotations

from typing import Any

from django.db import connection
from django.utils import timezone

from clinic.measures.group import CHOSEN, EVERYONE, Group
from clinic.measures.period import Period


def counted(
    query: str, period: Period, group: Group = EVERYONE, *, except_for: str = "", **more: Any
) -> list[tuple[Any, ...]]:
    """The rows of ``query``, which may name ``begins``, ``ends``, ``since``, ``until``, ``zone``
    and whatever is given as ``more``. Where it says ``/* chosen */``, the table ``chosen`` holds
    the stomas of the group; ``except_for``: whatever the group asks of that."""
    values = {
        **group.values,
        "except_for": except_for,
        "begins": period.begins,
        "ends": period.ends,
        "since": period.since,
        "until": period.until,
        "zone": str(timezone.get_current_timezone()),
        **more,
    }
    with connection.cursor() as cursor:
        cursor.execute(query.replace("/* chosen */", CHOSEN), values)
        return cursor.fetchall()
