"""`manage.py verify_audit`: is the audit trail still as it was written?"""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from clinic.audit.chain import Kept
from clinic.audit.verify import verify


class Command(BaseCommand):
    """For a timer. Ends with 1 where something is wrong."""

    help = "Walks the chain over the audit trail and names the first row that does not hold."

    def add_arguments(self, parser: CommandParser) -> None:
        """Take a number and hash noted earlier."""
        parser.add_argument(
            "--expect",
            nargs=2,
            metavar=("NUMBER", "HASH"),
            help="a last row noted earlier, which must still be there",
        )

    def handle(self, *args: Any, expect: list[str] | None, **options: Any) -> None:
        """Walk it. Raises ``CommandError`` at the first fault."""
        done = verify(_kept(expect), self._progress)
        if done.fault:
            raise CommandError(
                f"The audit trail does not hold. Sound up to row {done.held}; then:\n{done.fault}."
            )
        self.stdout.write(f"{done.held} rows hold.\nLast row: {done.held} {done.hash}")

    def _progress(self, held: int) -> None:
        self.stdout.write(f"… {held}")


def _kept(expect: list[str] | None) -> Kept | None:
    if expect is None:
        return None
    number, kept = expect
    if not (number.isascii() and number.isdigit()):
        raise CommandError("--expect takes the number first, then the hash.")
    return Kept(int(number), kept.lower())
