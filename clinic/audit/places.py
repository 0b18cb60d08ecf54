"""Where the audit trail is sent: the end of a file, or a log service."""

import json
import logging
import os
from contextlib import closing
from logging.handlers import SysLogHandler
from pathlib import Path

from clinic.audit.chain import Kept

#: Longer than the longest row.
_LAST_LINE = 64 * 1024


class NotSentError(Exception):
    """Why nothing more was sent, in words."""


class File:
    """Lines at the end of a file that only its owner may read."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def last(self) -> Kept | None:
        """The row in the file's last line; None in an empty file or none at all."""
        if not self.path.exists():
            return None
        with self.path.open("rb") as file:
            file.seek(max(0, self.path.stat().st_size - _LAST_LINE))
            end = file.read()
        if not end:
            return None
        kept = _read(end.removesuffix(b"\n").rpartition(b"\n")[2])
        if kept is None or not end.endswith(b"\n"):
            raise NotSentError(f"The last line of {self.path} is no whole row. Take it away first.")
        return kept

    def take(self, lines: list[str]) -> None:
        """Write ``lines`` and wait until they are on the disk."""
        opened = os.open(self.path, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o600)
        with os.fdopen(opened, "ab") as file:
            file.write("".join(f"{line}\n" for line in lines).encode())
            file.flush()
            os.fsync(opened)


class Syslog:
    """The machine's own log service at a socket, or that of ``(host, port)`` by UDP."""

    def __init__(self, address: str | tuple[str, int]) -> None:
        self.address = address

    def last(self) -> None:
        """What it has already cannot be asked of it."""

    def take(self, lines: list[str]) -> None:
        """Send each line by itself."""
        with closing(_Loud(self.address, facility=SysLogHandler.LOG_AUTHPRIV)) as handler:
            handler.ident = "clinic-audit: "
            for line in lines:
                handler.emit(logging.LogRecord("audit", logging.INFO, "", 0, "%s", (line,), None))


class _Loud(SysLogHandler):
    """The standard library's would go on after a failure."""

    def handleError(self, record: logging.LogRecord) -> None:  # noqa: N802 - its name there
        raise


def _read(line: bytes) -> Kept | None:
    try:
        row = json.loads(line)
        return Kept(int(row["number"]), str(row["hash"]))
    except (ValueError, TypeError, KeyError):
        return None
