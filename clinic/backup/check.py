"""Is a database what a backup's manifest says, and does it still guard what is final?"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django.db import DatabaseError, connection, transaction
from psycopg import sql

from clinic.audit.chain import Kept
from clinic.audit.verify import verify
from clinic.backup import contents
from clinic.backup.manifest import Manifest

_OFF = """
SELECT t.tgrelid::regclass::text, count(*) FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid
WHERE c.relnamespace = 'public'::regnamespace AND t.tgenabled NOT IN ('O', 'A')
GROUP BY 1 ORDER BY 1
"""
#: Tables in which a trigger refuses every change of a row, and those of a signed visit alone.
_FINAL = """
SELECT DISTINCT c.relname, p.prosrc LIKE '%pgtrigger: Cannot update%' AND t.tgqual IS NULL
FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid JOIN pg_proc p ON p.oid = t.tgfoid
WHERE c.relnamespace = 'public'::regnamespace AND NOT t.tgisinternal
AND (p.prosrc LIKE '%pgtrigger: Cannot update%'
    OR p.prosrc LIKE '%This visit is signed and cannot be changed.%')
ORDER BY 1, 2
"""
_COLUMNS = """
SELECT a.attname, a.attnum = ANY (i.indkey) FROM pg_attribute a
JOIN pg_index i ON i.indrelid = a.attrelid AND i.indisprimary
WHERE a.attrelid = %s::regclass AND a.attnum > 0 AND NOT a.attisdropped
"""
_OF_SIGNED = {
    "visits_visit": sql.SQL("state = 'signed'"),
    "assessment_id": sql.SQL(
        "assessment_id IN (SELECT a.id FROM visits_assessment a "
        "JOIN visits_visit v ON v.id = a.visit_id WHERE v.state = 'signed')"
    ),
    "visit_id": sql.SQL("visit_id IN (SELECT id FROM visits_visit WHERE state = 'signed')"),
}
_ANY = sql.SQL("true")
#: A row is touched and stays as it is.
_TOUCH = sql.SQL(
    "UPDATE {table} SET {key} = {key} WHERE {key} IN "
    "(SELECT {key} FROM {table} WHERE {chosen} LIMIT 1)"
)
#: What our triggers raise: raise_exception, check_violation.
_REFUSALS = frozenset({"P0001", "23514"})
#: Numbers that are given out: behind the highest in use, the next row would fail.
_COUNTERS = """
SELECT s.relname, c.relname, a.attname FROM pg_class s
JOIN pg_depend d ON d.objid = s.oid AND d.classid = 'pg_class'::regclass AND d.deptype IN ('a', 'i')
JOIN pg_class c ON c.oid = d.refobjid
JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum = d.refobjsubid
WHERE s.relkind = 'S' AND s.relnamespace = 'public'::regnamespace ORDER BY 1
"""
_PAPERS = """
SELECT count(*), count(*) FILTER (WHERE encode(sha256(pdf), 'hex') <> sha256)
FROM documents_storedfile
"""


@dataclass(frozen=True)
class Compared:
    """``faults``: sentences, none if all holds; ``found``: what was looked at, in words."""

    faults: list[str]
    found: list[str]


def compare(manifest: Manifest, progress: contents.Progress) -> Compared:
    """Look at everything, and say everything that does not hold. Nothing is changed."""
    faults: list[str] = []
    found: list[str] = []
    for look in (_tables, _guards, _final, _counters, _papers, _audit):
        for fault, words in look(manifest, progress):
            (faults if fault else found).append(words)
    return Compared(faults, found)


Said = Iterator[tuple[bool, str]]


def _tables(manifest: Manifest, progress: contents.Progress) -> Said:
    with transaction.atomic():
        with connection.cursor() as cursor:
            cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ")
        now = contents.sums(progress)
    for name in sorted(manifest.tables.keys() | now.keys()):
        before, after = manifest.tables.get(name), now.get(name)
        if before is None or after is None:
            yield True, f"{name}: {'not in the backup' if after else 'missing'}"
        elif before["rows"] != after["rows"]:
            yield True, f"{name}: {after['rows']} rows, in the backup {before['rows']}"
        elif before["sha256"] != after["sha256"]:
            yield True, f"{name}: as many rows as in the backup, but not the same ones"
    yield False, f"{len(now)} tables, {sum(one['rows'] for one in now.values())} rows compared"


def _guards(manifest: Manifest, _: contents.Progress) -> Said:
    now = contents.guards()
    for name in sorted(manifest.guards.keys() | now.keys()):
        if manifest.guards.get(name) != now.get(name):
            what = "changed" if name in now and name in manifest.guards else "missing"
            yield True, f"{name}: {'not in the backup' if name not in manifest.guards else what}"
    for table, count in _rows(_OFF):
        yield True, f"{table}: {count} triggers switched off"
    triggers = sum(name.startswith("trigger ") for name in now)
    yield False, f"{triggers} triggers on, {len(now) - triggers} other guards compared"


def _final(_: Manifest, progress: contents.Progress) -> Said:
    """A row that is final is touched in each table, and the database has to refuse it."""
    tried = 0
    for table, every_row in _rows(_FINAL):
        refused = _refused(table, every_row=every_row)
        tried += refused is not None
        if refused is False:
            yield True, f"{table}: a row that is final can be changed"
    yield False, f"a final row of {tried} tables touched, and refused"


def _refused(table: str, *, every_row: bool) -> bool | None:
    """Whether the database refuses a change; None where there is no row to try it on."""
    columns = dict(_rows(_COLUMNS, [table]))
    chosen = [_ANY] if every_row else [_OF_SIGNED[c] for c in (table, *columns) if c in _OF_SIGNED]
    key = next((name for name, of_key in columns.items() if of_key), None)
    if not chosen or key is None:
        return None
    names = {"table": sql.Identifier(table), "key": sql.Identifier(key)}
    try:
        with transaction.atomic(), connection.cursor() as cursor:
            cursor.execute(_TOUCH.format(**names, chosen=chosen[0]))
            transaction.set_rollback(True)
            return False if cursor.rowcount else None
    except DatabaseError as error:
        if getattr(error.__cause__, "sqlstate", None) not in _REFUSALS:
            raise
        return True


def _counters(_: Manifest, __: contents.Progress) -> Said:
    counters = _rows(_COUNTERS)
    for counter, table, column in counters:
        asked = sql.SQL(
            "SELECT coalesce((SELECT max({}) FROM {}) >= (SELECT last_value + is_called::int "
            "FROM {}), false)"
        ).format(*map(sql.Identifier, (column, table, counter)))
        if _rows(asked)[0][0]:
            yield True, f"{table}: the next number of {column} is in use already"
    yield False, f"{len(counters)} counters are past the last number in use"


def _papers(_: Manifest, __: contents.Progress) -> Said:
    ((papers, wrong),) = _rows(_PAPERS)
    if wrong:
        yield True, f"documents_storedfile: {wrong} papers are not what their hash says"
    yield False, f"{papers} stored papers are what their hash says"


def _audit(manifest: Manifest, progress: contents.Progress) -> Said:
    kept = Kept(manifest.audit_row, manifest.audit_hash) if manifest.audit_row else None

    def line(held: int) -> None:
        progress(held, max(held, manifest.audit_row), "audit")

    verified = verify(kept, line)
    if verified.fault:
        yield True, f"the audit trail: {verified.fault}"
    yield False, f"{verified.held} rows of the audit trail hold"


def _rows(question: Any, given: list[Any] | None = None) -> list[Any]:
    with connection.cursor() as cursor:
        # Without anything given, % is a sign like any other.
        cursor.execute(question, given)
        return list(cursor.fetchall())
