"""Write a backup: one file of the whole database, and its manifest beside it."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

from django.db import connection, transaction

from clinic.backup import contents, programs
from clinic.backup.manifest import Manifest, NoBackupError, beside, sha256_of, version
from clinic.plans.tried_by_need import RULES

_LAST_LINK = "SELECT number, hash FROM audit_accesslink ORDER BY number DESC LIMIT 1"
NOT_OWNER = (
    "Backups are made by the role that owns the tables; name it in DATABASE_URL for this command."
)


def backup(file: Path, progress: contents.Progress) -> Manifest:
    """Write both, renamed when whole, readable by this user alone. The server goes on working:
    what is summed up and what is written are of one moment.

    Raises ``NoBackupError`` or ``ProgramError``; then nothing is left behind.
    """
    if not contents.is_owner():
        raise NoBackupError(NOT_OWNER)
    for place in (file, beside(file)):
        if place.exists():
            raise NoBackupError(f"{place} is there already; name another file.")
    with _partly(file) as whole, _partly(beside(file)) as described:
        manifest = _written(whole, progress)
        described.write_text(manifest.to_text(), encoding="utf-8")
        for place in (whole, described):
            _to_disk(place)
        # The file last: where it is, its manifest is.
        described.rename(beside(file))
        whole.rename(file)
        _to_disk(file.parent)
    return manifest


@contextmanager
def _partly(file: Path) -> Iterator[Path]:
    """A new file beside ``file``, for its owner alone; gone at the end unless renamed."""
    place = file.with_name(f"{file.name}.{os.getpid()}.partial")
    os.close(os.open(place, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600))
    try:
        yield place
    finally:
        place.unlink(missing_ok=True)


def _to_disk(place: Path) -> None:
    descriptor = os.open(place, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


@transaction.atomic
def _written(whole: Path, progress: contents.Progress) -> Manifest:
    with connection.cursor() as cursor:
        cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
        cursor.execute("SET LOCAL idle_in_transaction_session_timeout = 0")
        cursor.execute("SELECT pg_export_snapshot(), current_setting('server_version')")
        snapshot, server = cursor.fetchone()
        cursor.execute(_LAST_LINK)
        audit_row, audit_hash = cursor.fetchone() or (0, "")
    tables = contents.sums(progress)
    _dump(snapshot, whole, len(tables), progress)
    return Manifest(
        made_at=datetime.now(UTC).isoformat(timespec="seconds"),
        version=version(),
        rule_set=RULES,
        server=server,
        migrations=contents.migrations(),
        file_bytes=whole.stat().st_size,
        file_sha256=sha256_of(whole),
        left_out=sorted(contents.LEFT_OUT),
        tables=tables,
        guards=contents.guards(),
        audit_row=audit_row,
        audit_hash=audit_hash,
    )


def _dump(snapshot: str, whole: Path, tables: int, progress: contents.Progress) -> None:
    """The database as it was when it was summed up."""
    done = 0

    def line(said: str) -> None:
        nonlocal done
        if "dumping contents of table" in said:
            done += 1
            progress(done, tables, "written")

    with whole.open("wb") as into:
        programs.run(
            "pg_dump",
            "--format=custom",
            "--compress=1",  # photos and papers are pressed already
            "--no-owner",
            "--no-acl",
            "--verbose",
            f"--snapshot={snapshot}",
            *(f"--exclude-table-data=public.{name}" for name in sorted(contents.LEFT_OUT)),
            into=into,
            line=line,
        )
