"""After every migration, rights and triggers are put in order again."""

from importlib import import_module

from django.apps import AppConfig
from django.db.models.signals import post_migrate


class DatabaseConfig(AppConfig):
    """Named last among the apps: what the others do after a migration comes before this."""

    name = "clinic.database"
    label = "database"

    def ready(self) -> None:
        """Wait for the end of each migration. It asks for models, which are loaded by now."""
        post_migrate.connect(import_module("clinic.database.after_migration").in_order, sender=self)
