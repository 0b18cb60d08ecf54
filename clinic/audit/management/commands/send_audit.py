"""`manage.py send_audit --to FILE`: the audit trail, kept elsewhere too."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from clinic.audit.chain import Kept
from clinic.audit.places import File, NotSentError, Syslog
from clinic.audit.send import send

LOCAL = "/dev/log"


class Command(BaseCommand):
    """For a timer: each run sends what came since the one before."""

    help = "Sends the rows of the audit trail, with their hashes, to a file or to syslog."
    #: The last row that went out.
    _last: Kept | None = None

    def add_arguments(self, parser: CommandParser) -> None:
        """Take where to, and from where on."""
        parser.add_argument(
            "--to", required=True, help="a file, or syslog, or syslog:HOST:PORT (by UDP)"
        )
        parser.add_argument(
            "--since",
            type=int,
            metavar="NUMBER",
            help="the last row sent before; a file knows it by itself",
        )

    def handle(self, *args: Any, to: str, since: int | None, **options: Any) -> None:
        """Send. Raises ``CommandError`` with the last row that went out."""
        if since is not None and since < 0:
            raise CommandError("--since takes the number of a row, or 0.")
        try:
            sent = send(_place(to), since, self._progress)
        except (OSError, NotSentError) as failed:
            reached = f" The last row sent is {self._last.number}." if self._last else ""
            raise CommandError(f"{failed}{reached}") from failed
        self.stdout.write(f"{sent.rows} rows sent.\nLast row: {sent.last.number} {sent.last.hash}")

    def _progress(self, last: Kept) -> None:
        self._last = last
        self.stdout.write(f"… {last.number}")


def _place(to: str) -> File | Syslog:
    if to == "syslog":
        return Syslog(LOCAL)
    if to.startswith("syslog:"):
        host, _, port = to.removeprefix("syslog:").rpartition(":")
        if not host or not (port.isascii() and port.isdigit()):
            raise CommandError("Write it as syslog:HOST:PORT.")
        return Syslog((host, int(port)))
    return File(Path(to))
