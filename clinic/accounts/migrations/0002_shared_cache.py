from django.core.management import call_command
from django.db import migrations
from django.db.backends.base.schema import BaseDatabaseSchemaEditor
from django.db.migrations.state import StateApps

TABLE = "clinic_cache"


def make(apps: StateApps, schema_editor: BaseDatabaseSchemaEditor) -> None:
    """Where failed sign-ins are counted; made by Django's own command, which knows the columns."""
    alias = schema_editor.connection.alias
    call_command("createcachetable", TABLE, database=alias, verbosity=0)


def drop(apps: StateApps, schema_editor: BaseDatabaseSchemaEditor) -> None:
    schema_editor.execute(f"DROP TABLE {TABLE}")


class Migration(migrations.Migration):
    dependencies = [("accounts", "0001_initial")]

    operations = [migrations.RunPython(make, drop)]
