"""Counting that takes more than one pass, done where the rows are."""

from __future__ import annotations

from typing import Any

from django.db import connection
from django.utils import timezone

from clinic.measures.period import Period


def counted(query: str, period: Period, **more: Any) -> list[tuple[Any, ...]]:
    """The rows of ``query``, which may name ``begins``, ``ends``, ``since``, ``until``, ``zone``
    and whatever is given as ``more``."""
    values = {
        "begins": period.begins,
        "ends": period.ends,
        "since": period.since,
        "until": period.until,
        "zone": str(timezone.get_current_timezone()),
        **more,
    }
    with connection.cursor() as cursor:
        cursor.execute(query, values)
        return cursor.fetchall()
