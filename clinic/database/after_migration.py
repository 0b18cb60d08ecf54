"""What is put in order at the end of a migration."""

from typing import Any

from django.db import connections

from clinic.database import rights, switches


def in_order(*, using: str, **_: Any) -> None:
    """No switch passes a trigger, and the application's role has the rights to each table."""
    with connections[using].cursor() as cursor:
        switches.take_out(cursor)
        rights.grant(cursor)
