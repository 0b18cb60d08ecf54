"""Django's own command, which would take an older version's tables for these."""

from typing import Any

from django.core.management.base import CommandError
from django.core.management.commands import migrate
from django.db import OperationalError, connection

from clinic.management.older_tables import OLDER, made_by_older_version

#: How long a change of a table waits for those who use it (design value). All who come
#: after it wait behind it.
LOCK_WITHIN = "5s"
LOCKED = (
    "A table was in use for longer than {within}, so this migration stopped, that no one who "
    "charts waits behind it; it changed nothing. Try again at a quieter time."
)
_LOCK_NOT_AVAILABLE = "55P03"


class Command(migrate.Command):
    """As Django's; an older version's database is refused in one sentence, and no one is kept
    waiting."""

    def handle(self, *args: Any, **options: Any) -> None:
        """Bring the tables up to date. Raises ``CommandError`` for an older version's, and where a
        table is in use for long."""
        if made_by_older_version():
            raise CommandError(OLDER)
        with connection.cursor() as cursor:
            cursor.execute("SELECT set_config('lock_timeout', %s, false)", [LOCK_WITHIN])
        try:
            super().handle(*args, **options)
        except OperationalError as error:
            if getattr(error.__cause__, "sqlstate", None) != _LOCK_NOT_AVAILABLE:
                raise
            raise CommandError(LOCKED.format(within=LOCK_WITHIN)) from error
        with connection.cursor() as cursor:
            cursor.execute("RESET lock_timeout")
