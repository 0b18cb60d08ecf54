"""The audit trail, row by row with its hash, to where this database's owner cannot change it.

A row goes out as one line of JSON. Its columns are the texts that its hash is made of
(``clinic.audit.chain``), so that the person who keeps the lines can compute the hashes again.
"""

import json
from collections.abc import Callable
from dataclasses import dataclass

from clinic.audit.chain import BEGINNING, COLUMNS, Kept, Row, chunks
from clinic.audit.places import File, NotSentError, Syslog


@dataclass(frozen=True)
class Sent:
    """How many rows went out, and the last one that the other place now has."""

    rows: int
    last: Kept


def send(
    to: File | Syslog, since: int | None, progress: Callable[[Kept], None] = lambda _: None
) -> Sent:
    """Send every row after number ``since``; None goes on where the other place ends.

    ``progress`` gets the last row sent, after each chunk. Raises ``NotSentError`` where the row
    that the other place ends with is not in the chain any more.
    """
    if since is None:
        last = to.last() or Kept(0, BEGINNING)
        _still_there(last)
    else:
        last = _at(since)
    count = 0
    for rows in chunks(last.number):
        to.take([line(row) for row in rows])
        count, last = count + len(rows), Kept(rows[-1].number, rows[-1].hash)
        progress(last)
    return Sent(count, last)


def line(row: Row) -> str:
    """One row as JSON, with number, hash and the columns by name."""
    if row.entry is None:
        raise NotSentError(
            f"Row {row.number} of the chain has lost its entry: see manage.py verify_audit."
        )
    said = {"number": row.number, "hash": row.hash}
    return json.dumps(said | dict(zip(COLUMNS, row.entry, strict=True)), ensure_ascii=False)


def _at(number: int) -> Kept:
    """The row of that number; the beginning for 0."""
    if number == 0:
        return Kept(0, BEGINNING)
    first = next(chunks(number - 1, 1), [])
    if not first or first[0].number != number:
        raise NotSentError(
            f"The chain has no row {number}, which was sent before: see manage.py verify_audit."
        )
    return Kept(number, first[0].hash)


def _still_there(last: Kept) -> None:
    if _at(last.number) != last:
        raise NotSentError(
            f"Row {last.number} has another hash than the one sent before: the chain was written "
            "again. Keep what was sent."
        )
