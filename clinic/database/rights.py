"""What the application's role may do with each table.

The rights are those of a group role, named for its database; the role that signs in is a member.
It owns nothing, so it can neither change a table nor switch off a trigger.
"""

from typing import Any

from django.apps import apps
from django.db import connection
from pghistory.models import Context, Event
from psycopg import sql

from clinic.audit.models import AccessLink, AccessLog

#: Made by migrations alone.
READ_ONLY = frozenset({"django_migrations", "django_content_type", "auth_permission"})
#: Written by functions that work with their owner's rights.
WRITTEN_BY_THE_OWNER = frozenset({Context._meta.db_table, AccessLink._meta.db_table})
#: PostgreSQL's longest name, in bytes.
LONGEST = 63
_SUFFIX = "_application"
#: How long the application's role waits (design values): for a row that another holds, for one
#: statement, and with a transaction left open. The owner, who migrates, has no such limits.
LIMITS = {
    "lock_timeout": "3s",
    "statement_timeout": "15s",
    "idle_in_transaction_session_timeout": "300s",
}

_TABLES = """
SELECT c.relname FROM pg_class c
WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p') AND NOT EXISTS (
    SELECT FROM pg_depend d WHERE d.objid = c.oid AND d.deptype = 'e'
)
ORDER BY c.relname
"""


def group_of(database: str) -> str:
    """The name of the group role of one database."""
    return database[: LONGEST - len(_SUFFIX)] + _SUFFIX


def append_only() -> frozenset[str]:
    """Tables of the audit trail and of history: rows come, and none is ever changed."""
    history = {m._meta.db_table for m in apps.get_models() if issubclass(m, Event)}
    return frozenset(history | {AccessLog._meta.db_table})


def allowed(table: str) -> tuple[str, ...]:
    """The rights to one table; none of them empties a table or touches its triggers."""
    if table in READ_ONLY or table in WRITTEN_BY_THE_OWNER:
        return ("SELECT",)
    if table in append_only():
        return ("SELECT", "INSERT")
    return ("SELECT", "INSERT", "UPDATE", "DELETE")


def grant(cursor: Any) -> bool:
    """Give the group role exactly its rights. False where this database has none yet."""
    cursor.execute("SELECT current_database()")
    group = group_of(cursor.fetchone()[0])
    cursor.execute("SELECT EXISTS (SELECT FROM pg_roles WHERE rolname = %s)", [group])
    if not cursor.fetchone()[0]:
        return False
    name = sql.Identifier(group)
    for every in ("TABLES", "SEQUENCES"):
        cursor.execute(
            sql.SQL("REVOKE ALL ON ALL {} IN SCHEMA public FROM {}").format(sql.SQL(every), name)
        )
    cursor.execute(sql.SQL("GRANT USAGE ON SCHEMA public TO {}").format(name))
    cursor.execute(sql.SQL("GRANT USAGE ON ALL SEQUENCES IN SCHEMA public TO {}").format(name))
    for table in tables(cursor):
        rights = sql.SQL(", ").join(map(sql.SQL, allowed(table)))
        cursor.execute(
            sql.SQL("GRANT {} ON TABLE {} TO {}").format(rights, sql.Identifier(table), name)
        )
    return True


def tables(cursor: Any) -> list[str]:
    """Every table of ours and of the packages; none that belongs to an extension."""
    cursor.execute(_TABLES)
    return [row[0] for row in cursor.fetchall()]


def make_role(name: str, password: str | None) -> None:
    """Make the group role and ``name``, a member that may sign in and nothing else; one that is
    there already gets the password, and loses whatever else it may do.

    Asked of the tables' owner, who must be allowed to make roles. ``password`` None: none is set,
    for a server that knows its users otherwise.
    """
    group = group_of(str(connection.settings_dict["NAME"]))
    with connection.cursor() as cursor:
        for role in (group, name):
            cursor.execute("SELECT EXISTS (SELECT FROM pg_roles WHERE rolname = %s)", [role])
            if not cursor.fetchone()[0]:
                cursor.execute(sql.SQL("CREATE ROLE {}").format(sql.Identifier(role)))
        cursor.execute(sql.SQL("ALTER ROLE {} NOLOGIN").format(sql.Identifier(group)))
        cursor.execute(
            sql.SQL("ALTER ROLE {} LOGIN INHERIT NOCREATEDB NOCREATEROLE").format(
                sql.Identifier(name)
            )
        )
        for limit, time in LIMITS.items():
            cursor.execute(
                sql.SQL("ALTER ROLE {} SET {} = {}").format(
                    sql.Identifier(name), sql.Identifier(limit), sql.Literal(time)
                )
            )
        if password is not None:
            cursor.execute(
                sql.SQL("ALTER ROLE {} PASSWORD {}").format(
                    sql.Identifier(name), sql.Literal(password)
                )
            )
        cursor.execute(
            sql.SQL("GRANT {} TO {}").format(sql.Identifier(group), sql.Identifier(name))
        )
        grant(cursor)
