"""Counting that takes more than one pass, done where the rows are."""

from __future__ import annotations

from typing import Any

from django.db import connection, transaction
from django.utils import timezone

from clinic.measures.group import CHOSEN, EVERYONE, Group
from clinic.measures.period import Period

#: A count over the whole clinic may take longer than any other statement (design value).
AT_MOST = "120s"


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
    with transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("SELECT set_config('statement_timeout', %s, true)", [AT_MOST])
        cursor.execute(query.replace("/* chosen */", CHOSEN), values)
        return cursor.fetchall()
