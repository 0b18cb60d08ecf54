"""`python3 manage.py make_application_role NAME`: the role that production works under."""

import os
from getpass import getpass
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.db import DatabaseError

from clinic.database.rights import make_role

PASSWORD = "APPLICATION_ROLE_PASSWORD"  # noqa: S105 - the variable's name


class Command(BaseCommand):
    """Run by the role that owns the tables, once; later migrations keep the rights in order."""

    help = "Makes a database role that reads and writes, and cannot change what is final."

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the role's name."""
        parser.add_argument("name", help="of the role, such as clinic_app")

    def handle(self, *args: Any, name: str, **options: Any) -> None:
        """Make it. The password is asked for, or taken from the environment."""
        password = os.environ.get(PASSWORD) or getpass(f"Password for the role {name}: ")
        if not password:
            raise CommandError("A role needs a password.")
        try:
            make_role(name, password)
        except DatabaseError as error:
            raise CommandError(f"The database made no such role: {error}") from error
        self.stdout.write(
            f"Made. Name “{name}” in DATABASE_URL of the server; keep this one for migrations "
            "and backups."
        )
