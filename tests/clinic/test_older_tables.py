"""A database of an older version is recognised: refused, or created again where it is the
demo's."""

from collections.abc import Iterator

import pytest
from django.core.management import CommandError, call_command
from django.db import connection, transaction
from django.db.migrations.recorder import MigrationRecorder

from clinic.management.commands.demo import forget_older_demo
from clinic.management.older_tables import made_by_older_version

pytestmark = pytest.mark.django_db


def _older() -> None:
    MigrationRecorder(connection).record_applied("plans", "0006_answers_received")


@pytest.fixture
def _undone() -> Iterator[None]:
    """Whatever the test drops is there again afterwards."""
    with transaction.atomic():
        yield
        transaction.set_rollback(True)


def test_todays_tables_are_todays() -> None:
    assert not made_by_older_version()
    call_command("migrate", verbosity=0, plan=True)


def test_older_tables_are_refused_in_a_sentence() -> None:
    _older()
    with pytest.raises(CommandError, match="made by an older version"):
        call_command("migrate", verbosity=0)


@pytest.mark.usefixtures("_undone")
def test_the_demo_empties_its_own(monkeypatch: pytest.MonkeyPatch) -> None:
    _older()
    monkeypatch.setenv("EMBEDDED_DATABASE", "yes")
    forget_older_demo()
    assert connection.introspection.table_names() == []


def test_the_demo_leaves_a_database_that_was_named(monkeypatch: pytest.MonkeyPatch) -> None:
    _older()
    monkeypatch.delenv("EMBEDDED_DATABASE", raising=False)
    forget_older_demo()
    assert made_by_older_version()
