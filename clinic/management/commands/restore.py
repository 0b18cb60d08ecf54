"""`manage.py restore FILE`: a backup into an empty database, and checked there."""

import time
from pathlib import Path
from typing import Any

from django.core.management.base import CommandError

from clinic.backup.manifest import Manifest, NoBackupError
from clinic.backup.programs import FOLDER, ProgramError
from clinic.backup.restore import migrations_to_come, restore, rights_given
from clinic.bootstrap.messages import say, show_count
from clinic.management.commands import check_backup

NO_ROLE = (
    "This server has no role of the application for this database yet: "
    "manage.py make_application_role NAME"
)


class Command(check_backup.Command):
    """As the role that is to own the tables."""

    help = "Restores a backup into an empty database, and checks it there."

    def handle(self, *args: Any, file: Path, **options: Any) -> None:
        """Restore, check, give the rights."""
        begun = time.monotonic()
        manifest = self._restored(file.absolute())
        self.stdout.write(f"Restored in {time.monotonic() - begun:.0f} s.")
        given = rights_given()
        self.report(manifest)
        self.stdout.write("The application's role has its rights." if given else NO_ROLE)
        if to_come := migrations_to_come(manifest):
            self.stdout.write(
                f"The backup is of version {manifest.version}; this one has {to_come} migrations "
                "more: manage.py migrate"
            )

    def _restored(self, file: Path) -> Manifest:
        say("Restoring …")
        try:
            return restore(file, show_count)
        except NoBackupError as none:
            raise CommandError(str(none)) from none
        except (ProgramError, OSError) as failed:
            raise CommandError(
                f"Nothing was restored; the database is still empty. {failed}. Where the program "
                f"and the server are of different versions, name the folder of fitting ones in "
                f"{FOLDER}."
            ) from failed
