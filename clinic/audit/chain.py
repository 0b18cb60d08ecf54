"""The chain over the audit trail, read and computed again.

The database numbers each row from 1 when it is committed, and keeps with it a hash: SHA-256 over
the hash of the row before (32 zero bytes before the first) and the row's number and columns as
texts. A text is written as its length in UTF-8 bytes, ":", itself and ","; no value as "-". Here
the hash is computed a second time, without asking the database's own function.
"""

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass

from django.db import connection

#: The columns in the order of the hash, each as the text that goes into it.
COLUMNS = {
    "id": "e.id::text",
    "at": """to_char(e.at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.US"Z"')""",
    "actor_id": "e.actor_id::text",
    "actor_words": "e.actor_words",
    "action": "e.action",
    "subject_kind": "e.subject_kind",
    "subject_uuid": "e.subject_uuid::text",
    "patient_uuid": "e.patient_uuid::text",
    "remote_address": "e.remote_address::text",
    "detail": "e.detail",
}
#: Stands for the hash before the first row.
BEGINNING = "0" * 64
#: Rows read with one query.
A_CHUNK = 5000
# Only our own names are put in.
_CHUNK = f"""
SELECT l.number, l.hash, l.entry_id, e.id IS NOT NULL, {", ".join(COLUMNS.values())}
FROM audit_accesslink l LEFT JOIN audit_accesslog e ON e.id = l.entry_id
WHERE l.number > %s ORDER BY l.number LIMIT %s
"""  # noqa: S608


@dataclass(frozen=True)
class Row:
    """A link with its entry's columns as texts; None where the entry is gone."""

    number: int
    hash: str
    entry_id: int
    entry: tuple[str | None, ...] | None


@dataclass(frozen=True)
class Kept:
    """The place of the chain as it is known elsewhere too."""

    number: int
    hash: str


def chunks(since: int = 0, size: int | None = None) -> Iterator[list[Row]]:
    """The rows after number ``since`` in the chain's order, ``size`` at a time."""
    size = size or A_CHUNK
    while True:
        with connection.cursor() as cursor:
            cursor.execute(_CHUNK, [since, size])
            found = [
                Row(number, kept, entry_id, tuple(entry) if there else None)
                for number, kept, entry_id, there, *entry in cursor.fetchall()
            ]
        if found:
            yield found
            since = found[-1].number
        if len(found) < size:
            return


def hash_of(before: str, number: int, entry: tuple[str | None, ...]) -> str:
    """The hash that a row has at this place of the chain.

    >>> hash_of(BEGINNING, 1, ("1", None))[:8]
    '456d5000'
    """
    said = "".join(map(_part, (str(number), *entry)))
    return hashlib.sha256(bytes.fromhex(before) + said.encode()).hexdigest()


def _part(value: str | None) -> str:
    return "-" if value is None else f"{len(value.encode())}:{value},"
