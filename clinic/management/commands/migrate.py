"""Django's own command, which would take an older version's tables for these."""

from typing import Any

from django.core.management.base import CommandError
from django.core.management.commands import migrate

from clinic.management.older_tables import OLDER, made_by_older_version


class Command(migrate.Command):
    """As Django's; an older version's database is refused in one sentence."""

    def handle(self, *args: Any, **options: Any) -> None:
        """Bring the tables up to date. Raises ``CommandError`` for an older version's."""
        if made_by_older_version():
            raise CommandError(OLDER)
        super().handle(*args, **options)
