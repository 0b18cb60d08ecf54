"""What is put in order at the end of a migration, and of a restore."""

from typing import Any

from django.db import connections

from clinic.database import rights, switches


def in_order(*, using: str, **_: Any) -> None:
    """No switch passes a trigger, and the application's role has the rights to each table."""
    put_in_order(using)


def put_in_order(using: str) -> bool:
    """Both, now. False where this database has no role of the application yet."""
    with connections[using].cursor() as cursor:
        switches.take_out(cursor)
        return rights.grant(cursor)
