"""A server never works under a role that could change what is final."""

from typing import Any

from django.core.exceptions import ImproperlyConfigured
from django.db import OperationalError, connection
from django.db.backends.signals import connection_created

_QUESTION = """
SELECT current_user, r.rolsuper OR r.rolbypassrls OR EXISTS (
    SELECT FROM pg_class c
    WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p')
    AND pg_has_role(current_user, c.relowner, 'MEMBER')
) FROM pg_roles r WHERE r.rolname = current_user
"""

OWNER = (
    "The database role “{role}” of DATABASE_URL owns the tables or is a superuser: it could "
    "change signed visits and the audit trail. Make a role that cannot, with "
    "“manage.py make_application_role NAME”, and name that one in DATABASE_URL. Migrations and "
    "backups keep using “{role}”."
)


def refuse_owner() -> None:
    """Ask now, or with the first connection where the database is away; a process keeps its role,
    so it is asked once.

    Raises ``ImproperlyConfigured`` under a role that owns a table or is a superuser.
    """
    connection_created.connect(_ask, dispatch_uid="least rights")
    try:
        connection.close()
        connection.ensure_connection()
    except OperationalError:
        return  # the first that there is will be asked
    finally:
        connection.close()


def _ask(sender: Any, connection: Any, **_: Any) -> None:
    with connection.cursor() as cursor:
        cursor.execute(_QUESTION)
        role, too_much = cursor.fetchone()
    if not too_much:
        connection_created.disconnect(dispatch_uid="least rights")
    else:
        raise ImproperlyConfigured(OWNER.format(role=role))
