"""`manage.py chores`: what a timer clears away each night."""

from collections.abc import Callable
from datetime import datetime
from typing import Any, Final

from django.conf import settings
from django.contrib.sessions.models import Session
from django.core.management.base import BaseCommand
from django.db import connection
from django.utils import timezone
from psycopg import sql

from clinic.documents.rendering import cache
from clinic.once import cleaning


def _sessions(now: datetime) -> int:
    return Session.objects.filter(expire_date__lt=now).delete()[0]


def _remembered(now: datetime) -> int:
    table = sql.Identifier(str(settings.CACHES["default"]["LOCATION"]))
    with connection.cursor() as cursor:
        cursor.execute(sql.SQL("DELETE FROM {} WHERE expires < %s").format(table), [now])
        return int(cursor.rowcount)


#: What is counted -> how it is cleared away. Nothing of the record is here: entries that wait for
#: a choice, and late saves, stay until somebody has chosen.
CHORES: Final[dict[str, Callable[[datetime], int]]] = {
    "sign-ins that ended": _sessions,
    f"keys of forms sent more than {cleaning.KEPT.days} days ago": cleaning.forget_before,
    f"pages set more than {cache.KEPT.days} days ago and never printed": cache.forget_before,
    "counts and figures whose time is over": _remembered,
}


class Command(BaseCommand):
    """As the application's role. A second run finds nothing more to do."""

    help = "Clears away sign-ins that ended, old keys, unprinted pages; nothing of the record."

    def handle(self, *args: Any, **options: Any) -> None:
        """Do each, and say how many."""
        now = timezone.now()
        for words, clear in CHORES.items():
            self.stdout.write(f"Cleared away: {words}: {clear(now)}.")
