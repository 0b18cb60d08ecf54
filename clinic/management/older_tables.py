"""Databases made before the migrations of each app were put together into one.

Their tables have other names; nothing leads from them to these. The demo creates its own again.
"""

from django.apps import apps
from django.db import connection
from django.db.migrations.loader import MigrationLoader

OLDER = (
    "This database was made by an older version, whose tables this one does not know: "
    "name an empty database."
)


def made_by_older_version() -> bool:
    """Whether the database records a migration of ours that is not among the files."""
    loader = MigrationLoader(connection)
    ours = {app.label for app in apps.get_app_configs() if app.name.startswith("clinic.")}
    applied = {key for key in loader.applied_migrations if key[0] in ours}
    return not applied <= set(loader.disk_migrations)


def empty_database() -> None:
    """Drop every table, so that migrations begin from nothing."""
    with connection.cursor() as cursor:
        cursor.execute("DROP SCHEMA public CASCADE")
        cursor.execute("CREATE SCHEMA public")
