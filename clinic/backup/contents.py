"""What a database holds, counted and summed up; and what guards it."""

import hashlib
from collections.abc import Callable
from typing import Any

from django.db import connection
from psycopg import sql

from clinic.database import rights

#: Who is signed in, failed sign-ins and what can be worked out again: not put into a backup, so
#: that its file lets no one in.
LEFT_OUT = frozenset({"django_session", "clinic_cache"})
#: A row as a text is the same on every server.
_SPELT_ALIKE = """
SET LOCAL timezone = 'UTC'; SET LOCAL datestyle = 'ISO, YMD'; SET LOCAL intervalstyle = 'iso_8601';
SET LOCAL bytea_output = 'hex'; SET LOCAL extra_float_digits = 1;
"""
#: Sums of rows, in an order that no server's language changes.
_ROWS = sql.SQL(
    "SELECT sha256(convert_to(kept_row::text, 'UTF8')) AS kept_sum FROM {} kept_row ORDER BY 1"
)
#: The trigger's function is looked at too: an empty one would guard nothing.
_GUARDS = """
SELECT 'trigger ' || t.tgname || ' on ' || c.relname, t.tgenabled::text || ' ' || md5(p.prosrc)
FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid JOIN pg_proc p ON p.oid = t.tgfoid
WHERE c.relnamespace = 'public'::regnamespace AND NOT t.tgisinternal
UNION ALL
SELECT 'function ' || p.proname || '(' || pg_get_function_identity_arguments(p.oid) || ')',
    md5(p.prosrc || p.prosecdef::text || coalesce(p.proconfig::text, ''))
FROM pg_proc p WHERE p.pronamespace = 'public'::regnamespace
AND NOT EXISTS (SELECT FROM pg_depend d WHERE d.objid = p.oid AND d.deptype = 'e')
UNION ALL
SELECT 'constraint ' || k.conname || ' on ' || c.relname,
    k.contype::text || ' ' || k.convalidated::text
FROM pg_constraint k JOIN pg_class c ON c.oid = k.conrelid
WHERE k.connamespace = 'public'::regnamespace AND k.contype <> 'n'
UNION ALL
SELECT 'index ' || c.relname, i.indisvalid::text
FROM pg_index i JOIN pg_class c ON c.oid = i.indexrelid
WHERE c.relnamespace = 'public'::regnamespace
ORDER BY 1
"""
_OWNED = """
SELECT bool_and(pg_has_role(current_user, c.relowner, 'MEMBER')) FROM pg_class c
WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p')
"""

Progress = Callable[[int, int, str], object]


def tables() -> list[str]:
    """Every table of ours and of the packages."""
    with connection.cursor() as cursor:
        return rights.tables(cursor)


def is_owner() -> bool:
    """Whether the role that asks owns every table."""
    with connection.cursor() as cursor:
        cursor.execute(_OWNED)
        return bool(cursor.fetchone()[0])


def sums(progress: Progress) -> dict[str, dict[str, Any]]:
    """Number of rows and one SHA-256 of each table. Asked within a transaction."""
    with connection.cursor() as cursor:
        cursor.execute(_SPELT_ALIKE)
    names = [name for name in tables() if name not in LEFT_OUT]
    found = {}
    for done, name in enumerate(names, start=1):
        found[name] = _sum(name)
        progress(done, len(names), name)
    return found


def _sum(table: str) -> dict[str, Any]:
    """A table of any size: its rows' sums come in parts."""
    digest = hashlib.sha256()
    rows = 0
    with connection.connection.cursor(name="kept_sums", binary=True) as cursor:
        cursor.itersize = 20_000
        cursor.execute(_ROWS.format(sql.Identifier(table)))
        for (of_row,) in cursor:
            digest.update(of_row)
            rows += 1
    return {"rows": rows, "sha256": digest.hexdigest()}


def guards() -> dict[str, str]:
    """Triggers with what they do, functions, constraints and indexes, by name."""
    with connection.cursor() as cursor:
        cursor.execute(_GUARDS)
        return dict(cursor.fetchall())


def migrations() -> list[str]:
    """Names of the migrations that made the tables."""
    with connection.cursor() as cursor:
        cursor.execute("SELECT app || '.' || name FROM django_migrations ORDER BY 1")
        return [row[0] for row in cursor.fetchall()]
