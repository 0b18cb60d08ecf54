"""Put a backup into an empty database: all of it or nothing."""

from pathlib import Path

from django.db import connection
from django.db.migrations.loader import MigrationLoader

from clinic.backup import contents, programs
from clinic.backup.manifest import Manifest, NoBackupError, read
from clinic.database.after_migration import put_in_order

NOT_EMPTY = (
    "The database “{name}” holds {count} tables already. A backup is restored into an empty one, "
    "so that nothing is written over: make it with createdb, and name it in DATABASE_URL."
)
NEWER = (
    "This backup was made by a newer version ({version}), with migrations that this one does not "
    "have ({first} is the first): restore it with that version."
)


def restore(file: Path, progress: contents.Progress) -> Manifest:
    """Restore into the database that is named. It is not compared yet.

    Raises ``NoBackupError`` or ``ProgramError``; the database is empty as before then.
    """
    if there := contents.tables():
        name = connection.settings_dict["NAME"]
        raise NoBackupError(NOT_EMPTY.format(name=name, count=len(there)))
    manifest = read(file)
    _require_known(manifest)
    total, done = programs.listed(file), 0

    def line(said: str) -> None:
        nonlocal done
        if ": creating " in said or ": processing " in said:
            done = min(done + 1, total)
            progress(done, total, said.rpartition(" ")[2].strip('"'))

    connection.close()  # no session of ours is in the way
    programs.run(
        "pg_restore",
        "--single-transaction",
        "--exit-on-error",
        "--no-owner",
        "--no-acl",
        "--verbose",
        f"--dbname={connection.settings_dict['NAME']}",
        str(file),
        line=line,
    )
    with connection.cursor() as cursor:
        cursor.execute("ANALYZE")
    return manifest


def rights_given() -> bool:
    """Give the application's role its rights; False where it is to be made first. A backup holds no
    roles: they are the server's."""
    return put_in_order(connection.alias)


def migrations_to_come(manifest: Manifest) -> int:
    """How many migrations this version has that the backup had not."""
    return len(_ours() - set(manifest.migrations))


def _require_known(manifest: Manifest) -> None:
    unknown = sorted(set(manifest.migrations) - _ours())
    if unknown:
        raise NoBackupError(NEWER.format(version=manifest.version, first=unknown[0]))


def _ours() -> set[str]:
    loader = MigrationLoader(None, ignore_no_migrations=True)
    return {f"{app}.{name}" for app, name in loader.disk_migrations}
