"""`python manage.py load_invented_clinic`: invented staff, people and visits for the demo."""

from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from fixtures.invented_clinic.load import load


class Command(BaseCommand):
    """Load the invented clinic once; never among real people."""

    help = "Loads an invented clinic, dated up to today; a second run changes nothing."

    def handle(self, *args: Any, **options: Any) -> None:
        """Load, and say what was written."""
        if settings.PRODUCTION:
            raise CommandError("Invented people do not belong into a clinic's own database.")
        loaded = load(timezone.now())
        if loaded.people == 0:
            self.stdout.write("The invented clinic is here already; nothing was added.")
            return
        self.stdout.write(
            f"{loaded.people} invented people, {loaded.signed} signed visits, "
            f"{loaded.drafts} draft."
        )
