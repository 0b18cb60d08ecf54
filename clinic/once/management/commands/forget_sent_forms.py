"""`manage.py forget_sent_forms`: a chore of each night."""

from typing import Any

from django.core.management.base import BaseCommand
from django.utils import timezone

from clinic.once.cleaning import KEPT, forget_before


class Command(BaseCommand):
    """For a timer."""

    help = f"Forgets the keys of forms sent more than {KEPT.days} days ago."

    def handle(self, *args: Any, **options: Any) -> None:
        """Forget them, and say how many."""
        self.stdout.write(f"{forget_before(timezone.now())} keys forgotten.")
