"""What a backup holds, written beside its file: what a restored database is compared with."""

import hashlib
import json
import tomllib
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from django.conf import settings

#: Raised when the form below changes.
FORM = 1


class NoBackupError(Exception):
    """The file is no whole backup; the text says why, in a sentence."""


@dataclass(frozen=True)
class Manifest:
    """``tables``: rows and SHA-256 of each; ``guards``: triggers, functions, constraints, indexes;
    ``audit_row`` and ``audit_hash``: the last row of the audit trail's chain."""

    made_at: str
    version: str
    rule_set: str
    server: str
    migrations: list[str]
    file_bytes: int
    file_sha256: str
    left_out: list[str]
    tables: dict[str, dict[str, Any]]
    guards: dict[str, str]
    audit_row: int
    audit_hash: str
    form: int = FORM

    @property
    def rows(self) -> int:
        """How many rows all tables have together."""
        return sum(one["rows"] for one in self.tables.values())

    def to_text(self) -> str:
        """As it lies beside the backup."""
        return json.dumps(asdict(self), indent=1, sort_keys=True) + "\n"


def beside(file: Path) -> Path:
    """Where the manifest of a backup is."""
    return file.with_name(f"{file.name}.json")


def read(file: Path) -> Manifest:
    """The manifest of a backup's file, the file found whole.

    Raises ``NoBackupError``.
    """
    if not file.is_file():
        raise NoBackupError(f"There is no file {file}.")
    try:
        found = json.loads(beside(file).read_text(encoding="utf-8"))
        if found.get("form") != FORM:
            raise NoBackupError(f"{beside(file)} was written by another version: restore with it.")
        manifest = Manifest(**found)
    except OSError as error:
        raise NoBackupError(
            f"{beside(file)} cannot be read: without it nothing shows that the backup is whole."
        ) from error
    except (ValueError, TypeError, AttributeError) as error:
        raise NoBackupError(f"{beside(file)} is not a backup's manifest.") from error
    if (file.stat().st_size, sha256_of(file)) != (manifest.file_bytes, manifest.file_sha256):
        raise NoBackupError(f"{file} is not the file that was written: cut off or changed.")
    return manifest


def sha256_of(file: Path) -> str:
    """The sum of a file's bytes."""
    with file.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def version() -> str:
    """Of this checkout."""
    project = tomllib.loads((settings.BASE_DIR / "pyproject.toml").read_text(encoding="utf-8"))
    return str(project["project"]["version"])
