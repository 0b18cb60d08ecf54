"""A migration keeps no one waiting."""

from typing import Any

import psycopg
import pytest
from django.core.management import CommandError, call_command
from django.core.management.commands import migrate as djangos
from django.db import connection, transaction

from clinic.management.commands import migrate


def changes_a_table(*_given: Any, **_named: Any) -> None:
    with connection.cursor() as cursor:
        cursor.execute("ALTER TABLE clinic_cache ADD COLUMN more int")


@pytest.mark.django_db
def test_a_table_in_use_is_not_waited_for_long(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(djangos.Command, "handle", changes_a_table)
    monkeypatch.setattr(migrate, "LOCK_WITHIN", "20ms")
    asked = connection.get_connection_params()
    given = {name: asked[name] for name in ("host", "port", "user", "dbname") if name in asked}
    with psycopg.connect(**given) as reader:
        reader.execute("SELECT count(*) FROM clinic_cache")
        reader.execute("SET idle_in_transaction_session_timeout = '20s'")
        with pytest.raises(CommandError, match="it changed nothing"), transaction.atomic():
            call_command("migrate", verbosity=0)
    call_command("migrate", verbosity=0)
    with connection.cursor() as cursor:
        cursor.execute("SHOW lock_timeout")
        assert cursor.fetchone() == ("0",)
