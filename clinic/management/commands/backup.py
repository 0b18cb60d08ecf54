"""`manage.py backup FILE`: the whole record in one file, with its manifest beside it."""

import time
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from clinic.backup.make import backup
from clinic.backup.manifest import NoBackupError, beside
from clinic.backup.programs import ProgramError
from clinic.bootstrap.messages import show_count


class Command(BaseCommand):
    """For a timer, as the role that owns the tables; the server goes on working."""

    help = "Writes a backup of the whole database; people can go on charting."

    def add_arguments(self, parser: CommandParser) -> None:
        """Take where to."""
        parser.add_argument("file", type=Path, help="a new file, such as /backups/monday.backup")

    def handle(self, *args: Any, file: Path, **options: Any) -> None:
        """Write it, and say what is in it."""
        begun = time.monotonic()
        try:
            made = backup(file.absolute(), show_count)
        except (NoBackupError, ProgramError, OSError) as failed:
            raise CommandError(f"No backup was made. {failed}") from failed
        self.stdout.write(
            f"{file}: {made.file_bytes} bytes, {len(made.tables)} tables, {made.rows} rows, "
            f"in {time.monotonic() - begun:.0f} s. What it holds is described in {beside(file)}; "
            "keep both together.\n"
            f"Last row of the audit trail: {made.audit_row} {made.audit_hash}"
        )
