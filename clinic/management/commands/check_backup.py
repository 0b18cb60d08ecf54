"""`manage.py check_backup FILE`: is the database what this backup says?"""

import time
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from clinic.backup.check import compare
from clinic.backup.manifest import Manifest, NoBackupError, read
from clinic.bootstrap.messages import show_count


class Command(BaseCommand):
    """For a database that was restored, before anybody charts in it. Ends with 1 where something
    is wrong."""

    help = "Compares every row of a restored database with its backup, and tries what guards it."

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the backup."""
        parser.add_argument("file", type=Path, help="of the backup; its manifest lies beside it")

    def handle(self, *args: Any, file: Path, **options: Any) -> None:
        """Compare."""
        try:
            manifest = read(file.absolute())
        except NoBackupError as none:
            raise CommandError(str(none)) from none
        self.report(manifest)

    def report(self, manifest: Manifest) -> None:
        """Say what holds; raise ``CommandError`` with all that does not."""
        begun = time.monotonic()
        compared = compare(manifest, show_count)
        for words in compared.found:
            self.stdout.write(f"  {words}")
        took = f"in {time.monotonic() - begun:.0f} s"
        if compared.faults:
            raise CommandError(
                f"This database is not what the backup of {manifest.made_at} holds; "
                f"do not work in it ({took}):\n" + "\n".join(f"  {one}" for one in compared.faults)
            )
        self.stdout.write(f"Checked {took}: this is the backup of {manifest.made_at}.")
