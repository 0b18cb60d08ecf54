"""Is every row of the audit trail still as it was written? The first that is not, in words."""

from collections.abc import Callable
from dataclasses import dataclass

from django.db import connection

from clinic.audit.chain import BEGINNING, Kept, Row, chunks, hash_of

_WITHOUT_LINK = """
SELECT min(e.id), count(*) FROM audit_accesslog e
WHERE NOT EXISTS (SELECT FROM audit_accesslink l WHERE l.entry_id = e.id)
"""

CHANGED = (
    "changed: row {number} (entry {entry}) is not what was written there, or rows before it were "
    "taken out or put in and the rest numbered again"
)
ELSEWHERE = "out of order: row {number} is entry {entry}, where entry {belongs} was written"
ENTRY_GONE = "missing: entry {entry}, row {number} of the chain, is not on the trail any more"
LINK_GONE = "missing: row {number} of the chain is gone; the next one there is row {next}"
NO_LINK = (
    "without a link: {count} of the trail's entries, first entry {entry}, came on it without "
    "being written into the chain, or lost their link"
)
CUT = "missing: the chain ends with row {last}, and row {number}, whose hash was kept, is cut off"
AGAIN = "changed: row {number} has another hash than the one kept; the chain was written again"


@dataclass(frozen=True)
class Verified:
    """``held`` rows from the first on are sound, the last of them with ``hash``; ``fault`` is what
    is wrong then, or ""."""

    held: int
    hash: str
    fault: str


def verify(
    expect: Kept | None = None, progress: Callable[[int], None] = lambda _: None
) -> Verified:
    """Walk the chain. ``progress`` gets how many rows hold so far, after each chunk."""
    held, last = 0, BEGINNING
    for rows in chunks():
        for row in rows:
            if fault := _fault(row, held, last, expect):
                return Verified(held, last, fault)
            held, last = row.number, row.hash
        progress(held)
    if expect is not None and held < expect.number:
        return Verified(held, last, CUT.format(last=held, number=expect.number))
    return Verified(held, last, _without_link())


def _fault(row: Row, held: int, before: str, expect: Kept | None) -> str:
    number = held + 1
    if row.number != number:
        return LINK_GONE.format(number=number, next=row.number)
    if row.entry is None:
        return ENTRY_GONE.format(number=number, entry=row.entry_id)
    if hash_of(before, number, row.entry) != row.hash:
        belongs = _belongs(number, before, row.hash)
        words = CHANGED if belongs is None else ELSEWHERE
        return words.format(number=number, entry=row.entry_id, belongs=belongs)
    if expect is not None and number == expect.number and row.hash != expect.hash:
        return AGAIN.format(number=number)
    return ""


def _belongs(number: int, before: str, kept: str) -> int | None:
    """The entry that was written at this place and is now at another. The whole chain is walked for
    it, once."""
    for rows in chunks():
        for row in rows:
            if row.entry and hash_of(before, number, row.entry) in (row.hash, kept):
                return row.entry_id
    return None


def _without_link() -> str:
    with connection.cursor() as cursor:
        cursor.execute(_WITHOUT_LINK)
        entry, count = cursor.fetchone()
    return NO_LINK.format(count=count, entry=entry) if count else ""
